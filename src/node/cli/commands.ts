import type { Command } from './command.ts';

type Loading = () => Promise<{ readonly default: Command }>;

/**
 * Every command by its name, in the order of the help. Each is loaded when it is called, so that a check does not wait
 * for what only a render needs.
 */
export const COMMANDS: Readonly<Record<string, Loading>> = {
  // What people write, and what is wrong with it.
  new: () => import('./new.ts'),
  check: () => import('./check.ts'),
  times: () => import('./times.ts'),
  fit: () => import('./fit.ts'),
  timecode: () => import('./timecode.ts'),
  quantities: () => import('./quantities.ts'),
  corrections: () => import('./corrections.ts'),
  // Footage.
  ingest: () => import('./ingest.ts'),
  analyse: () => import('./analyse.ts'),
  align: () => import('./align.ts'),
  suggest: () => import('./suggest.ts'),
  transcribe: () => import('./transcribe.ts'),
  render: () => import('./render.ts'),
  // Open formats.
  export: () => import('./export.ts'),
  import: () => import('./import.ts'),
  // The site.
  build: () => import('./build.ts'),
  start: () => import('./start.ts'),
  // The machine it runs on.
  doctor: () => import('./doctor.ts'),
  worker: () => import('./worker.ts'),
  jobs: () => import('./jobs.ts'),
  completion: () => import('./completion.ts'),
  // What leaves the shop.
  pack: () => import('./pack.ts'),
  'check-pack': () => import('./check-pack.ts'),
  unpack: () => import('./unpack.ts'),
  // What shops share.
  collections: () => import('./collections.ts'),
};

/** The command that a line names; all of them where it names none, for help and for suggestions. */
export async function loadCommands(name: string | undefined): Promise<readonly Command[]> {
  const one = name !== undefined && Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  const loading = one ? [one] : Object.values(COMMANDS);
  return Promise.all(loading.map(async (load) => (await load()).default));
}
