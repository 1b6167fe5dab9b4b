import { type Command } from 'commander';
import { type Session } from '../program.js';

export function addBuild(_program: Command, _session: Session): void {}
