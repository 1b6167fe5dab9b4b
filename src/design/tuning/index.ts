export { tuningAdvice, type TuningAdvice } from './advice.js';
