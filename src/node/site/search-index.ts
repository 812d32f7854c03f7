import { mkdir, writeFile } from 'node:fs/promises';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { dirname, join } from 'node:path';
import { close, createIndex, type IndexFile } from 'pagefind';
import type { Shop } from '../../core/model/index.ts';
import { type StepRecord, stepRecords } from '../../core/search/index.ts';
import { readTarget, safely } from '../http/index.ts';

/** Folder of the site that holds the search index. */
export const SEARCH = 'pagefind';

/**
 * The search index: one record for each step.
 *
 * @param base path the site is served under, such as `/`
 * @returns files by path relative to the index's folder
 * @throws when the index cannot be made
 */
export async function searchIndex(shop: Shop, base: string): Promise<readonly IndexFile[]> {
  const language = shop.info.language ?? 'en';
  const { index, errors } = await createIndex({ forceLanguage: language });
  if (!index) throw new Error(`the search index cannot be made: ${errors.join('; ')}`);
  try {
    const failed = [];
    for (const record of stepRecords(shop))
      failed.push(...(await index.addCustomRecord(customRecord(record, base, language))).errors);
    const written = await index.getFiles();
    failed.push(...written.errors);
    if (failed.length) throw new Error(`the search index cannot be made: ${failed.join('; ')}`);
    return written.files;
  } finally {
    await index.deleteIndex();
    await close();
  }
}

/** Writes the index into a built site. */
export async function placeSearchIndex(files: readonly IndexFile[], out: string): Promise<void> {
  for (const { path, content } of files) {
    const to = join(out, SEARCH, path);
    await mkdir(dirname(to), { recursive: true });
    await writeFile(to, content);
  }
}

/** Answers requests for the index from memory, for the local site, where none is written. */
export function memoryHandler(files: () => Promise<readonly IndexFile[]>) {
  return safely(async (request: IncomingMessage, response: ServerResponse, next: () => void): Promise<void> => {
    const path = readTarget(request.url)?.path.slice(1);
    const file = (await files()).find((each) => each.path === path);
    if (!file || path === undefined) return next();
    const type = /\.js$/.test(path)
      ? 'text/javascript'
      : /\.json$/.test(path)
        ? 'application/json'
        : 'application/octet-stream';
    response.writeHead(200, { 'content-type': type, 'cache-control': 'no-store' }).end(file.content);
  });
}

/** The address that opens a lesson at a step and plays it; of its own for each step, since equal ones replace each other. */
function stepAddress({ lesson, id }: StepRecord, base: string): string {
  return `${base}lessons/${lesson.id}/?play=${id}#${id}`;
}

function customRecord(record: StepRecord, base: string, language: string) {
  const { chapter, machine, specs, tools, hazards } = record;
  return {
    url: stepAddress(record, base),
    content: record.text || record.title,
    language,
    // Searched too, the title before all else, but never shown with the words found.
    meta: { title: record.title, chapter: chapter.title, also: record.also.join('. ') },
    filters: {
      machine: [machine.title],
      tool: tools.map(({ title }) => title),
      hazard: [...hazards],
      spec: specs.map(({ title }) => title),
    },
    sort: { order: record.number },
  };
}
