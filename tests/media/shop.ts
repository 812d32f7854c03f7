import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { frameTotal, planCards } from '../../src/core/media/index.ts';
import type { Recording } from '../../src/core/model/index.ts';
import { type PlacedCard, programmeCards } from '../../src/core/programme/index.ts';
import type { Range } from '../../src/core/time/index.ts';
import { loadShop } from '../../src/node/files/index.ts';
import { CardDesk } from '../../src/node/media/draw-cards.ts';
import { type Prepared, prepare } from '../../src/node/media/prepare.ts';
import { Progress, SILENT } from '../../src/node/media/progress.ts';
import { type Inlays, type RenderedProgramme, renderProgramme } from '../../src/node/media/render.ts';
import { Store } from '../../src/node/media/store.ts';
import { findTools, type Tools } from '../../src/node/media/tools.ts';
import { chromiumFor } from '../../src/node/programs/index.ts';

/** A content folder with one recording, as text, and further files by path. */
export async function shopWith(
  folder: string,
  recording: string,
  files: Readonly<Record<string, string>> = {},
): Promise<string> {
  await mkdir(join(folder, 'recordings'), { recursive: true });
  await mkdir(join(folder, 'media'), { recursive: true });
  await writeFile(join(folder, 'shop.yaml'), 'name: Test garage\n');
  await writeFile(join(folder, 'recordings', 'take.yaml'), recording);
  for (const [file, text] of Object.entries(files)) {
    await mkdir(dirname(join(folder, file)), { recursive: true });
    await writeFile(join(folder, file), text);
  }
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

/** Renders the recording of a content folder to `output`; `burn`: with its cards in the picture. */
export async function render(
  content: string,
  output: string,
  {
    burn = false,
    ...wishes
  }: { target?: number; speech?: readonly Range<'recording'>[]; inlays?: Inlays; burn?: boolean } = {},
): Promise<{ prepared: Prepared; done: RenderedProgramme; cards: readonly PlacedCard[] }> {
  const store = await Store.open(content);
  const { signal } = new AbortController();
  const found = await tools();
  const recording = await recordingIn(content);
  const prepared = await prepare(content, recording, found, signal);
  const desk = burn ? new CardDesk(await chromiumFor('cards are drawn', process.env)) : undefined;
  const cards = desk ? programmeCards((await loadShop(content)).shop, recording) : [];
  const runs = planCards(cards, prepared.rate, frameTotal(prepared.kept));
  const done = await renderProgramme(
    prepared,
    output,
    { ...wishes, inlays: wishes.inlays ?? {}, ...(desk && { burn: { runs, desk } }) },
    { tools: found, store, signal, progress: new Progress(SILENT) },
  );
  await desk?.close();
  await store.close();
  return { prepared, done, cards };
}
