import { hash } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { anglesUsed } from '../../core/media/index.ts';
import type { Recording } from '../../core/model/index.ts';
import { PACKAGE_FOLDERS } from '../../core/pack/index.ts';
import { fileInside, loadShop, placeFolder } from '../files/index.ts';
import {
  factsSchema,
  findRendered,
  MANIFEST,
  type Manifest,
  manifestSchema,
  renderedFolder,
} from '../media/rendered.ts';
import type { PackageState } from './check-package.ts';
import { type PackageFiles, readText } from './package-files.ts';

const { film: FILM } = PACKAGE_FOLDERS;
/** What the files of a finished programme are called below the content folder, by kind. */
function partNames(of: number): readonly { readonly kind: string; readonly name: string }[] {
  if (of < 2) return [{ kind: 'programme', name: 'programme.mp4' }];
  return Array.from({ length: of }, (_, i) => ({ kind: `part-${i + 1}`, name: `programme-${i + 1}.mp4` }));
}

const MOST_MANIFEST = 64_000_000;

/**
 * From what a finished programme was made, as it goes along with it: the camera files stay in the shop, and what was
 * found out about them travels, so that every time of the recording keeps its meaning where they are not.
 *
 * @param parts the files that it travels in: ticks and bytes
 */
export function travellingManifest(
  recording: Recording,
  manifest: Manifest,
  parts: readonly { readonly length: number; readonly bytes: number }[],
): string {
  const away = [...recording.files, ...anglesUsed(recording)].flatMap(({ file, facts }) =>
    facts.state === 'media' ? [[file, factsSchema.parse(facts.media)] as const] : [],
  );
  const { files: _files, away: _away, parts: _parts, ...rest } = manifest;
  const files = partNames(parts.length).map(({ kind, name }, i) => [kind, { name, bytes: parts[i]?.bytes ?? 0 }]);
  const written = {
    ...rest,
    away: Object.fromEntries(away),
    ...(parts.length > 1 && { parts: parts.map(({ length }) => length) }),
    files: Object.fromEntries(files),
  };
  return `${JSON.stringify(written, null, 1)}\n`;
}

/**
 * Puts the finished programmes of a package where those of the shop lie, for recordings that are as they were packed and
 * have none yet.
 *
 * @returns paths that were written, in the content folder
 */
export async function placeProgrammes(
  files: PackageFiles,
  state: PackageState,
  content: string,
  signal: AbortSignal,
): Promise<readonly string[]> {
  const placed: string[] = [];
  const films = (state.manifest?.films ?? []).filter(({ plays }) => plays === 'programme');
  for (const { recording: id, files: paths } of films) {
    const made = `${FILM}/${id}.json`;
    if (![...paths, made].every((path) => state.sums.has(path))) continue;
    // Another recording of the same id has other files and times.
    const text = await readFile(fileInside(content, `recordings/${id}.yaml`)).catch(() => Buffer.of());
    const sum = hash('sha256', text);
    if (sum !== state.sums.get(`${PACKAGE_FOLDERS.source}/recordings/${id}.yaml`)) continue;
    const manifest = readTravelling(await readText(files, made, MOST_MANIFEST));
    const names = partNames(paths.length);
    if (manifest?.recording !== id || (manifest.parts?.length ?? 1) !== paths.length) continue;
    if (!names.every(({ kind }, i) => manifest.files[kind]?.bytes === files.sizes.get(paths[i] ?? ''))) continue;
    // Read afresh: it decides by what the content says now.
    const before = (await loadShop(content)).shop.recordings.find((one) => one.id === id);
    if (!before || (await findRendered(content, before))) continue;
    const target = renderedFolder(content, id);
    const wishes = { target, content, own: true, holds: 'a rendered programme', what: 'unpacking', signal } as const;
    await placeFolder(wishes, async (next) => {
      for (const [i, path] of paths.entries())
        await pipeline(await files.read(path), createWriteStream(join(next, names[i]?.name ?? '')), { signal });
      await writeFile(join(next, MANIFEST), JSON.stringify(manifest));
    });
    placed.push(...names.map(({ name }) => `.liftside/rendered/${id}/${name}`));
  }
  return placed;
}

function readTravelling(text: string): Manifest | undefined {
  try {
    const manifest = manifestSchema.parse(JSON.parse(text));
    const names = partNames(manifest.parts?.length ?? 1);
    const asNamed = names.every(({ kind, name }) => manifest.files[kind]?.name === name);
    const whole = manifest.parts?.reduce((sum, length) => sum + length, 0) ?? manifest.length;
    return asNamed && Object.keys(manifest.files).length === names.length && whole === manifest.length
      ? manifest
      : undefined;
  } catch {
    return undefined;
  }
}
