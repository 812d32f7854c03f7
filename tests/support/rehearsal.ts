import { resolve } from 'node:path';
import { drawCourse, leadCourse, makeDaySheet } from '../../src/core/day/index.ts';
import { fitClass, partLookup } from '../../src/core/fit/index.ts';
import { loadShop } from '../../src/node/files/index.ts';
import { loadSolver } from '../../src/node/programs/index.ts';

/*
 * Leads drawn courses of a class to their end, each twice: by the paper alone, and with the first way out taken
 * whenever the class is late, as long as it asks for nothing. `npm run rehearsal [class] [courses]`.
 */
const [id = 'chain-saturday', courses = '200'] = process.argv.slice(2);
const { shop } = await loadShop(resolve(process.env.LIFTSIDE_CONTENT ?? 'content'));
const shopClass = shop.classes.find((each) => each.id === id);
if (!shopClass) throw new Error(`there is no class "${id}"`);
const solver = await loadSolver();
const sheet = makeDaySheet(
  shop,
  fitClass(shopClass, partLookup(shop), solver),
  () => 'uncut',
  (path) => `/${path}`,
  0,
);
const slot =
  (sheet.shopClass.slot.split(':').map(Number) as [number, number]).reduce((sum, part) => sum * 60 + part, 0) * 60;
const count = Number(courses);
const ends = { paper: [] as number[], advice: [] as number[] };
let taken = 0;
let worst = 0;
for (let seed = 1; seed <= count; seed++) {
  const course = drawCourse(sheet, seed);
  ends.paper.push(leadCourse(sheet, course).end);
  const began = performance.now();
  const led = leadCourse(sheet, course, solver);
  worst = Math.max(worst, performance.now() - began);
  ends.advice.push(led.end);
  taken += led.taken.length;
}
const inTime = (list: readonly number[]) => `${Math.round((100 * list.filter((end) => end <= slot).length) / count)} %`;
const middle = (list: readonly number[]) =>
  Math.round((list.toSorted((a, b) => a - b)[Math.floor(count / 2)] ?? 0) / 60);
console.log(`${count} drawn courses of ${id}, to end within ${slot / 60} min
by the paper alone: ${inTime(ends.paper)} in time, half of them after ${middle(ends.paper)} min
with advice taken:  ${inTime(ends.advice)} in time, half of them after ${middle(ends.advice)} min, ${(taken / count).toFixed(1)} changes of plan a class
the longest class took ${Math.round(worst)} ms of reckoning in all`);
