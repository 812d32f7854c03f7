/** @jsxImportSource preact */
import type { Store } from '../store.ts';
import { WORK_NAMES } from './FilmWork.tsx';

/** The work that is under way, and how far it is, always in sight. */
export function WorkWord({ store }: { readonly store: Store }) {
  const job = store.jobs.value.find(({ state }) => state === 'running');
  if (!job) return null;
  const share = job.share === undefined ? '' : ` ${Math.floor(job.share * 100)} %`;
  return (
    <p class="working">
      {WORK_NAMES[job.work]}:{share} {job.now}
    </p>
  );
}
