import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Recording } from '../../src/core/model/index.ts';
import { loadShop } from '../../src/node/files/index.ts';
import { type Prepared, prepare } from '../../src/node/media/prepare.ts';
import { Progress, SILENT } from '../../src/node/media/progress.ts';
import { type Inlays, type RenderedProgramme, renderProgramme } from '../../src/node/media/render.ts';
import { Store } from '../../src/node/media/store.ts';
import { findTools, type Tools } from '../../src/node/media/tools.ts';

/** A content folder with one recording, as text. */
export async function shopWith(folder: string, recording: string): Promise<string> {
  await mkdir(join(folder, 'recordings'), { recursive: true });
  await mkdir(join(folder, 'media'), { recursive: true });
  await writeFile(join(folder, 'shop.yaml'), 'name: Test garage\n');
  await writeFile(join(folder, 'recordings', 'take.yaml'), recording);
  return folder;
}

export async function recordingIn(content: string): Promise<Recording> {
  const { shop } = await loadShop(content);
  const recording = shop.recordings.find(({ id }) => id === 'take');
  if (!recording) throw new Error('the recording could not be read');
  return recording;
}

export async function tools(): Promise<Tools> {
  const found = await findTools(process.env);
  if (!found.ok) throw new Error(found.problem);
  return found.value;
}

/** Renders the recording of a content folder to `output`. */
export async function render(
  content: string,
  output: string,
  wishes: { target?: number; inlays?: Inlays } = {},
): Promise<{ prepared: Prepared; done: RenderedProgramme }> {
  const store = await Store.open(content);
  const { signal } = new AbortController();
  const found = await tools();
  const prepared = await prepare(content, await recordingIn(content), found, signal);
  const done = await renderProgramme(
    prepared,
    output,
    { ...wishes, inlays: wishes.inlays ?? {} },
    { tools: found, store, signal, progress: new Progress(SILENT) },
  );
  await store.close();
  return { prepared, done };
}
