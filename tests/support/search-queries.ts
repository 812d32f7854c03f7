import { readFileSync } from 'node:fs';
import type { SearchOver } from './search-over.ts';

/** What somebody types, and what would answer it. */
export interface Query {
  readonly typed: string;
  /** Ids of search records; empty where nothing fits. */
  readonly wanted: readonly string[];
}

/** The queries of a file: `typed => s lesson/step | v machine/spec`, `-` for nothing. */
export function queriesOf(path: string): Query[] {
  return readFileSync(path, 'utf8')
    .split('\n')
    .filter((line) => line.includes(' => ') && !line.startsWith('#'))
    .map((line) => {
      const [typed = '', wanted = ''] = line.split(' => ');
      const ids = wanted.split('|').map((id) => id.trim().replace(/^s /, 'step ').replace(/^v /, 'spec '));
      return { typed, wanted: wanted.trim() === '-' ? [] : ids };
    });
}

/** The queries that are not answered: none wanted among the first three, or a hit where nothing fits. */
export async function unanswered(search: SearchOver, queries: readonly Query[]) {
  const answers = await Promise.all(
    queries.map(async ({ typed, wanted }) => {
      const { hits } = await search.find(typed);
      const first = hits.slice(0, 3).map(({ id }) => id);
      const right = wanted.length === 0 ? hits.length === 0 : first.some((id) => wanted.includes(id));
      return right ? [] : [{ typed, wanted, first }];
    }),
  );
  return answers.flat();
}
