/** mm. The books behind these rules measure in inches. */
export const millimetresPerInch = 25.4;
/** m/s, of one foot a second. */
export const footPerSecond = 0.3048;
