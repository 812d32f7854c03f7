import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';
import { type Sample, sampleContent } from '../../src/core/check/index.ts';

/** A content folder on disk with the files of a sample; gone after the test. It holds no footage. */
export function shopFolder(sample: Sample = { files: {} }): string {
  const folder = mkdtempSync(join(tmpdir(), 'liftside-shop-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  for (const [file, text] of sampleContent(sample).texts) {
    mkdirSync(dirname(join(folder, file)), { recursive: true });
    writeFileSync(join(folder, file), text);
  }
  return folder;
}
