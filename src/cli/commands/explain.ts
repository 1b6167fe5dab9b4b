import { type Command } from 'commander';
import { type Session } from '../program.js';

export function addExplain(_program: Command, _session: Session): void {}
