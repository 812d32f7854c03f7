import { resolve } from 'node:path';
import type { SharedCollection } from '../../core/model/index.ts';
import { didYouMean } from '../../core/read/index.ts';
import { openFolder, readKept, type Use, verifyCollection } from '../collections/index.ts';
import type { LoadedShop } from '../files/index.ts';
import { type Context, EXIT, type ExitCode, type Flags, OutsideFailure } from './command.ts';

/**
 * The collections that a shop uses, of a name or all.
 *
 * @throws OutsideFailure where there is none, or `collections.yaml` is not sound
 */
export function usesOf({ shop, diagnostics }: LoadedShop, name: string | undefined): readonly Use[] {
  const [fault] = diagnostics.filter(({ place }) => place.file === 'collections.yaml');
  if (fault)
    throw new OutsideFailure(
      `collections.yaml:${fault.place.start.line}:${fault.place.start.column}: ${fault.message}`,
      `${fault.help}; nothing was done`,
      true,
    );
  const uses = (shop.collections.uses ?? []).map((use, at): Use => ({ ...use, at }));
  if (uses.length === 0)
    throw new OutsideFailure(
      'this shop uses no collection',
      'write collections.yaml into the content folder; docs/collections.md shows how',
      true,
    );
  if (name === undefined) return uses;
  const named = uses.filter((use) => use.name === name);
  if (named.length > 0) return named;
  throw new OutsideFailure(
    `no collection "${name}"`,
    didYouMean(
      name,
      uses.map((use) => use.name),
    ),
    true,
  );
}

/** `collections list`: what is in use, from whom, and whether its signer is known. */
export async function describeCollections(
  [name]: readonly string[],
  flags: Flags,
  { load, out }: Context,
): Promise<ExitCode> {
  const loaded = await load();
  const uses = usesOf(loaded, name);
  const known = (use: Use) => loaded.shop.collections.kept.find((one) => one.name === use.name);
  if (flags.has('json'))
    out(
      JSON.stringify(
        uses.map((use) => {
          const kept = known(use);
          return {
            ...{ name: use.name, from: use.folder ?? use.address ?? use.git, version: use.lock?.version ?? null },
            ...{ publisher: kept?.publisher ?? null, licence: kept?.licence ?? null },
            ...{ signer: use.lock?.signer ?? null, signerKnown: kept?.signer === 'known' },
          };
        }),
        null,
        2,
      ),
    );
  else out(uses.map((use) => inWords(use, known(use))).join('\n'));
  return EXIT.fine;
}

function inWords({ name, lock }: Use, kept: SharedCollection | undefined): string {
  if (!lock) return `${name}: not fetched yet; liftside collections update fetches it`;
  if (!kept) return `${name} ${lock.version}: no longer kept; liftside collections update fetches it`;
  const signer =
    kept.signer === 'known'
      ? `signed by ${lock.signer}`
      : `signer unknown: call ${kept.publisher}, compare ${lock.signer}, write it under key:`;
  return `${name} ${lock.version}: ${kept.title}, of ${kept.publisher}, ${kept.licence}; ${signer}`;
}

/** `collections verify`: what is kept, or a folder, against its signature and sums. */
export async function verifyCollections(
  [name]: readonly string[],
  flags: Flags,
  { load, content, cwd, signal, say, out }: Context,
): Promise<ExitCode> {
  const found: { name: string; version: string | null; whole: boolean; problem?: string }[] = [];
  if (name !== undefined && /[/\\.]/.test(name)) {
    const source = await openFolder(resolve(cwd, name));
    const { manifest, signer } = await verifyCollection(source, signal).finally(() => source.close());
    say(`whole: ${manifest.name} ${manifest.version}, of ${manifest.publisher}, signed by ${signer}`);
    found.push({ name: manifest.name, version: manifest.version, whole: true });
  } else
    for (const use of usesOf(await load(), name)) {
      const kept = await readKept(content, use.name, use.lock, signal);
      const about = { name: use.name, version: use.lock?.version ?? null };
      if (kept?.whole) {
        say(`whole: ${use.name} ${kept.verified.manifest.version}`);
        found.push({ ...about, whole: true });
        continue;
      }
      const problem = kept ? kept.problem : `${use.name} is not kept here`;
      say(`not whole: ${problem}\n${kept ? kept.help : 'liftside collections update fetches it'}`);
      found.push({ ...about, whole: false, problem });
    }
  if (flags.has('json')) out(JSON.stringify(found, null, 2));
  return found.every(({ whole }) => whole) ? EXIT.fine : EXIT.contentHasErrors;
}
