import { listWords, plural } from '../read/index.ts';
import type { ClassFit } from './fit-class.ts';
import { type Offer, offeredMinutes } from './plan/learn.ts';
import { givenAs } from './plan/plan.ts';
import { clockText, demandText, hoursText, lengthText } from './plan/words.ts';
import { timelineOf, timelineText } from './timeline.ts';

/** Most advice shown on a terminal. */
const MOST_ADVICE = 8;

/** A fitted class in words, for whoever tries what would be if. */
export interface FitInWords {
  readonly fits: boolean;
  readonly head: string;
  /** Why it does not fit. */
  readonly conflict: readonly string[];
  readonly blocks: readonly { readonly clock: string; readonly length: string; readonly title: string }[];
  readonly left: readonly string[];
  readonly turns: readonly string[];
  readonly ways: readonly string[];
  readonly overrun: string;
}

/** What a fitted class comes to, a line each. */
export function fitInWords(fit: ClassFit): FitInWords {
  const { plan, risk, conflict } = fit;
  return {
    fits: fit.fits,
    head: headLine(fit),
    conflict: conflict?.demands.map((demand) => demandText(plan, demand)) ?? [],
    blocks: rowsOf(fit).map(({ at, block, treatment }) => ({
      clock: clockText(plan, at.start),
      length: lengthText(at.end - at.start),
      title: treatment.title ? `${block.title}, ${treatment.title}` : block.title,
    })),
    left: leftLines(fit),
    turns: turnLines(fit),
    ways: adviceLines(fit),
    overrun: `chance of overrunning ${Math.round(risk.overrunProbability * 100)} %`,
  };
}

function headLine(fit: ClassFit): string {
  const { plan, timetable } = fit;
  const slack = plan.slotSeconds - timetable.end;
  if (fit.fits)
    return `fits: ${hoursText(timetable.end)} planned of ${hoursText(plan.slotSeconds)}, ${lengthText(slack)} free`;
  if (slack >= 0) return 'does not fit';
  const buffer = plan.bufferSeconds > 0 ? `, and ${lengthText(plan.bufferSeconds)} are to stay free` : '';
  return `does not fit: ${hoursText(timetable.end)} at least for ${hoursText(plan.slotSeconds)}, ${lengthText(-slack)} too long${buffer}`;
}

function leftLines({ plan, left }: ClassFit): string[] {
  return left.map(({ block, reason }) => `${plan.blocks[block]?.title}: ${reason}`);
}

function adviceLines({ advice }: ClassFit): string[] {
  return advice
    .slice(0, MOST_ADVICE)
    .map(
      ({ text, worthLost, enough }) =>
        `${text}${worthLost > 0 ? `, loses ${worthLost} worth` : ''}${enough ? '' : ' (not enough by itself)'}`,
    );
}

/** A run sheet as text, with what is left out, what could be done and how sure it is. */
export function printFit(fit: ClassFit): string {
  const { plan, shopClass, risk, conflict } = fit;
  const head = [
    `${shopClass.title}, ${shopClass.date}, ${clockText(plan, 0)} to ${clockText(plan, plan.slotSeconds)}`,
    headLine(fit),
  ];
  return [
    ...head,
    '',
    ...(conflict ? ['These cannot all hold:', ...conflict.demands.map((d) => `  ${demandText(plan, d)}`), ''] : []),
    ...timelineText(timelineOf(fit)),
    '',
    ...runSheetRows(fit),
    ...section('Left out', leftLines(fit)),
    ...section('Groups and stations', turnLines(fit)),
    ...section(fit.fits ? 'What would save time' : 'Ways out, best first', adviceLines(fit)),
    ...section('What to trim so that nothing has to be dropped', trimLines(fit)),
    ...riskLines(fit, risk),
  ].join('\n');
}

function rowsOf({ plan, choice, timetable }: ClassFit) {
  return plan.blocks
    .flatMap((block, index) => {
      const at = timetable.blocks[index];
      const treatment = givenAs(plan, choice, index);
      return at && treatment ? [{ at, index, block, treatment }] : [];
    })
    .toSorted((a, b) => a.at.start - b.at.start || a.index - b.index);
}

function runSheetRows(fit: ClassFit): string[] {
  return rowsOf(fit).map(({ at, block, treatment }, row) => {
    const length = lengthText(at.end - at.start).padStart(6);
    const way = treatment.title ? `  ${treatment.title}` : '';
    return `${letter(row)} ${clockText(fit.plan, at.start)} ${length}  ${block.title}${way && ` ·${way}`}${block.beside === undefined ? '' : ' (at the same time)'}`;
  });
}

function turnLines({ plan, turns }: ClassFit): string[] {
  return turns.map((each) => {
    const { block, stations, attendees, last, next } = each;
    const turn = plural(each.turns, 'turn');
    const head = `${plan.blocks[block]?.title}: ${attendees} in groups of ${groupSizes(each.groups)} at ${plural(stations.count, 'station')}, ${turn} of ${lengthText(each.turnSeconds)}`;
    if (last) return `${head}; the ${ordinal(last.attendee)} attendee costs ${lengthText(last.costSeconds)}`;
    return `${head}; the ${ordinal(next)} attendee would cost ${lengthText(each.turnSeconds)} more`;
  });
}

function groupSizes(groups: readonly number[]): string {
  return listWords([...new Set(groups)].map(String));
}

/** 1st, 2nd, 3rd, 4th, 11th. */
function ordinal(number: number): string {
  const tens = number % 100;
  const end = tens >= 11 && tens <= 13 ? 'th' : (['th', 'st', 'nd', 'rd'][number % 10] ?? 'th');
  return `${number}${end}`;
}

function trimLines({ trim }: ClassFit): string[] {
  if (trim.overSeconds === 0) return [];
  if (!trim.enough) return ['even with nothing on screen it would not fit'];
  return trim.targets
    .filter(({ shareSeconds }) => shareSeconds > 0)
    .map(({ title, shareSeconds, programmeSeconds, aloneSeconds }) => {
      const alone = aloneSeconds === undefined ? '' : `, or ${lengthText(aloneSeconds)} if it alone is trimmed`;
      return `${title}: ${lengthText(shareSeconds)} of ${lengthText(programmeSeconds)}${alone}`;
    });
}

/** The letter of a block in the timeline above. */
function letter(row: number): string {
  return String.fromCharCode(row < 26 ? 65 + row : 97 + ((row - 26) % 26));
}

function section(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : ['', title, ...lines.map((line) => `  ${line}`)];
}

function riskLines({ plan }: ClassFit, risk: ClassFit['risk']): string[] {
  const percent = (share: number) => `${Math.round(share * 100)} %`;
  const causes = risk.causes
    .slice(0, 3)
    .map(({ block, extraSeconds }) => `${plan.blocks[block]?.title} (${lengthText(extraSeconds)} longer)`);
  return section('How sure it is', [
    `chance of overrunning ${percent(risk.overrunProbability)}; 9 of 10 times it ends by ${clockText(plan, Math.ceil(risk.end.p90 / 60) * 60)}`,
    `${lengthText(risk.bufferFor90)} free at the end would make it 9 times in 10; ${lengthText(plan.bufferSeconds)} are asked for`,
    ...(causes.length > 0 ? [`what makes it late: ${causes.join(', ')}`] : []),
    ...risk.lateStart
      .filter(({ probability }) => probability >= 0.05)
      .map(
        ({ block, probability }) =>
          `${plan.blocks[block]?.title} starts after its time in ${percent(probability)} of classes`,
      ),
  ]);
}

/** What earlier classes say about the written estimates, as lines to be shown below the run sheet. */
export function printOffers({ plan }: ClassFit, offers: readonly Offer[]): string[] {
  return section(
    'What earlier classes took',
    offers.map((offer) => {
      const took = offer.took.map((seconds) => lengthText(seconds)).join(', ');
      const title = plan.blocks.find(({ id }) => id === offer.block)?.title ?? offer.block;
      return `${title} (${offer.treatment}): ${took}; counted in, minutes: [${offeredMinutes(offer).join(', ')}]`;
    }),
  );
}
