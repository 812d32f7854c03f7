import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { readDayLog } from '../../../src/node/server/day-log.ts';
import { HOME, script } from './run.ts';

/** Presses of a class, in order: each a question, so that every one of them can be told from the others. */
export const PRESSES = 6;

export async function classFolder(folder: string): Promise<void> {
  await mkdir(join(folder, 'classes'), { recursive: true });
}

/**
 * Leads a class in a process of its own: begins it, then sets so many questions aside, one after the other, and prints
 * the id of each once it was said to be kept. What was kept before is sent again, as a page does that heard no answer.
 */
export function leader(folder: string): string[] {
  const from = (path: string) => JSON.stringify(join(HOME, path));
  return script(
    `import { DayDesk } from ${from('src/node/server/day-desk.ts')};
     import { readClock } from ${from('src/node/server/day-clock.ts')};
     import { Hub } from ${from('src/node/server/hub.ts')};
     import { sheetOf, talk } from ${from('tests/core/day/support.ts')};
     const content = process.argv.at(-1);
     const sheet = sheetOf([talk('welcome', [{ id: 'full', worth: 10, minutes: 5 }])]);
     const desk = new DayDesk({ content, hub: new Hub(), clock: () => readClock(Date.now()), today: () => '2027-03-06', sheetOf: async () => sheet });
     const rows = [{ id: 'e0', at: 0, kind: 'begin' }];
     for (let n = 1; n <= ${PRESSES}; n++) rows.push({ id: 'e' + n, at: n, kind: 'question', words: 'Question ' + n + '?' });
     for (const row of rows) {
       await desk.take('test', [row]);
       console.log(row.id);
     }`,
    folder,
  );
}

/** Ids that a leader was told were kept. */
export function saidKept(output: string | undefined): string[] {
  return (output ?? '').match(/^e\d+$/gm) ?? [];
}

/** Ids in the log of the class. */
export async function inLog(folder: string): Promise<string[]> {
  return (await readDayLog(folder, 'test')).events.map(({ id }) => id);
}
