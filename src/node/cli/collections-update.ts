import { relative, sep } from 'node:path';
import { reportText } from '../../core/check/index.ts';
import type { Comparison } from '../../core/collections/index.ts';
import type { Compared } from '../../core/pack/index.ts';
import { listWords, plural } from '../../core/read/index.ts';
import { isoDay } from '../../core/time/index.ts';
import {
  correctionsAfter,
  type Fetched,
  fetchCollection,
  planFetched,
  takeFetched,
  type Use,
} from '../collections/index.ts';
import { type LoadedShop, loadShop } from '../files/index.ts';
import { PackageRefused } from '../pack/index.ts';
import { choiceOf, holdNames, planLines } from './choices.ts';
import { usesOf } from './collections-kept.ts';
import { type Context, EXIT, type ExitCode, type Flags, OutsideFailure } from './command.ts';

interface Outcome {
  readonly name: string;
  readonly version: string | null;
  readonly state: 'taken' | 'same' | 'open' | 'refused' | 'unreachable' | 'planned';
  readonly problem?: string;
  /** Names of what is still to be chosen. */
  readonly open?: readonly string[];
  readonly written?: readonly string[];
}

/** `collections update`: fetches, verifies and merges; one that is refused or out of reach does not hold up the others. */
export async function updateCollections([name]: readonly string[], flags: Flags, context: Context): Promise<ExitCode> {
  const { content, say, out, now, signal, env } = context;
  const loaded = await context.load();
  const uses = usesOf(loaded, name);
  const by = flags.text('by');
  const comparison = by === undefined ? undefined : { by, on: isoDay(now()) };
  const fetched: Fetched[] = [];
  const outcomes: Outcome[] = [];
  for (const use of uses) {
    try {
      fetched.push(await fetchCollection(content, use, { signal, env }));
    } catch (error) {
      outcomes.push(failureOf(use, error, say));
    }
  }
  const compared: Compared[] = [];
  for (const one of fetched)
    if (one.state === 'new') compared.push(...(await planFetched(loaded, one, choiceOf(flags), comparison)).compared);
  holdNames(flags, compared, 'nothing was taken');
  for (const [index, one] of fetched.entries()) {
    // Read afresh: another collection has been taken before this one.
    const now = index === 0 ? loaded : await loadShop(content);
    outcomes.push(await take(now, one, flags, comparison, context));
  }
  if (flags.has('json')) out(JSON.stringify(outcomes, null, 2));
  if (outcomes.some(({ state }) => state === 'refused' || state === 'open')) return EXIT.contentHasErrors;
  return outcomes.some(({ state }) => state === 'unreachable') ? EXIT.outsideFailed : EXIT.fine;
}

function failureOf({ name, lock }: Use, error: unknown, say: Context['say']): Outcome {
  const refused = error instanceof PackageRefused;
  if (!refused && !(error instanceof OutsideFailure)) throw error;
  const stays = lock ? `${lock.version} stays in use` : 'nothing of it is in use';
  say(`${name} ${refused ? 'is refused' : 'is out of reach'}: ${error.message}\n${error.help}\n${stays}`);
  const state = refused ? 'refused' : 'unreachable';
  return { name, version: lock?.version ?? null, state, problem: error.message };
}

async function take(
  loaded: LoadedShop,
  one: Fetched,
  flags: Flags,
  comparison: Comparison | undefined,
  { content, cwd, now, say, out }: Context,
): Promise<Outcome> {
  const { manifest, signer } = one.there;
  const about = { name: one.use.name, version: manifest.version };
  if (one.state === 'same') {
    say(`${about.name} ${about.version}: nothing new`);
    return { ...about, state: 'same' };
  }
  const choose = choiceOf(flags);
  const plan = await planFetched(loaded, one, choose, comparison);
  say(`${about.name} ${about.version}: ${manifest.title}, of ${manifest.publisher}, ${manifest.licence}`);
  if (manifest.notes !== undefined) say(`  ${manifest.notes}`);
  if (one.use.key === undefined)
    say(
      `  signer unknown: its values are shown as unchecked; call ${manifest.publisher} and compare ${signer}, then write it under key:`,
    );
  for (const line of planLines(plan.compared, choose, manifest.version)) say(line);
  if (plan.open.length > 0) {
    const base = relative(cwd, content).split(sep).join('/');
    const shownAs = (file: string) => (base === '' ? file : `${base}/${file}`);
    if (!flags.has('json')) out(reportText(plan.open, loaded.texts, shownAs));
    say(
      `nothing of ${about.name} was taken: ${plural(plan.open.length, 'choice')} left; --take NAME takes theirs, --keep NAME keeps what is here, "all" decides the rest`,
    );
    const open = plan.compared.filter(({ name, state }) => state === 'differs' && choose(name) === undefined);
    return { ...about, state: 'open', open: open.map(({ name }) => name) };
  }
  if (flags.has('dry-run')) {
    say('nothing was changed');
    return { ...about, state: 'planned' };
  }
  const { by } = comparison ?? {};
  const note = `changed by ${about.name} ${about.version}, of ${manifest.publisher}`;
  const corrections = correctionsAfter(loaded, one, plan, { on: isoDay(now()), by, note });
  const written = await takeFetched(loaded, one, plan, corrections);
  for (const { count, file } of corrections)
    say(`${plural(count, 'correction')} written to ${file}, where a recording says the old value`);
  say(
    `took ${about.name} ${about.version}: ${plural(written.length, 'file')} written; liftside check says what is left to do`,
  );
  if (plan.uncompared.length > 0)
    say(
      `nobody here has compared ${listWords(plan.uncompared)} yet: check refuses ${plan.uncompared.length === 1 ? 'it' : 'them'} until checkedBy and checkedOn say who has, and when`,
    );
  return { ...about, state: 'taken', written };
}
