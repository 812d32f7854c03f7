import { stat } from 'node:fs/promises';
import type { Recording } from '../../core/model/index.ts';
import { OutsideFailure } from '../failure.ts';
import { fileInside } from '../files/inside.ts';

/** @throws OutsideFailure when files of a recording are missing, naming all that are, or one lies outside of the content */
export async function needFiles(content: string, recording: Recording, files: readonly string[]): Promise<void> {
  const missing: string[] = [];
  for (const file of files)
    if (!(await stat(fileInside(content, file)).catch(() => undefined))?.isFile()) missing.push(file);
  if (missing.length > 0)
    throw new OutsideFailure(
      `${recording.id} cannot be used: ${missing.join(', ')} ${missing.length > 1 ? 'are' : 'is'} not there`,
      `put the file back, or correct its path in ${recording.origin.place.file}`,
    );
}
