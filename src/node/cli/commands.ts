import analyse from './analyse.ts';
import build from './build.ts';
import check from './check.ts';
import type { Command } from './command.ts';
import corrections from './corrections.ts';
import exportTo from './export.ts';
import fit from './fit.ts';
import importFile from './import.ts';
import newFile from './new.ts';
import quantities from './quantities.ts';
import render from './render.ts';
import start from './start.ts';
import suggest from './suggest.ts';
import timecode from './timecode.ts';
import times from './times.ts';

/** Every command, in the order of the help. */
export const COMMANDS: readonly Command[] = [
  // What people write, and what is wrong with it.
  newFile,
  check,
  times,
  fit,
  timecode,
  quantities,
  corrections,
  // Footage.
  analyse,
  suggest,
  render,
  // Open formats.
  exportTo,
  importFile,
  // The site.
  build,
  start,
];
