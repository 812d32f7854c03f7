import check from './check.ts';
import type { Command } from './command.ts';
import fit from './fit.ts';
import timecode from './timecode.ts';
import times from './times.ts';

/** Every command, in the order of the help. */
export const COMMANDS: readonly Command[] = [check, times, fit, timecode];
