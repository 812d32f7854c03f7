import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Recording } from '../../core/model/index.ts';
import { OutsideFailure } from '../failure.ts';

/** @throws OutsideFailure when one of the files of a recording is missing, naming all that are */
export async function needFiles(content: string, recording: Recording, files: readonly string[]): Promise<void> {
  const missing: string[] = [];
  for (const file of files) if (!(await stat(join(content, file)).catch(() => undefined))?.isFile()) missing.push(file);
  if (missing.length > 0)
    throw new OutsideFailure(
      `${recording.id} cannot be used: ${missing.join(', ')} ${missing.length > 1 ? 'are' : 'is'} not there`,
      `put the file back, or correct its path in ${recording.origin.place.file}`,
    );
}
