import { fail, ok, type Parsed } from '../time/index.ts';
import type { DesignationKind } from './kinds.ts';
import { UNIFIED_SERIES } from './pitches.ts';

/** How a designation of each kind reads. */
export const EXAMPLE: Readonly<Record<DesignationKind, string>> = {
  thread: 'M8×1.25',
  'viscosity-grade': '10W-40',
};

/**
 * A thread or a grade of oil in the one way its standard writes it, so that two of them are the same where their texts
 * are: `m8 x 1.25` is `M8×1.25`, `10w40` is `10W-40`.
 *
 * @returns refused where the standard has no such size or grade
 */
export function readDesignation(written: string, kind: DesignationKind): Parsed<string> {
  const text = written.normalize('NFKC').trim().replaceAll(/\s+/g, ' ');
  return kind === 'thread' ? thread(text) : grade(text);
}

const METRIC = /^M ?(\d+(?:\.\d+)?)(?: ?[×x*] ?(\d+(?:\.\d+)?))?(?: ?(?:LH|left[- ]hand(?:ed)?))?$/i;
const UNIFIED = /^(#?\d{1,2}|(?:\d[ -])?\d{1,2}\/\d{1,2}|\d)["″]? ?- ?(\d{1,2})(?: ?(UN[CFRJ]?|UNEF|UNJF))?$/i;
const PIPE = /^(G|R|Rc|Rp) ?((?:\d[ -])?\d\/\d|\d)$/i;
const NPT = /^((?:\d[ -])?\d\/\d|\d)["″]? ?(?:- ?(\d{1,2}(?:\.5)?) ?)?(NPTF?)$/i;
const INCH_BY = /^(\d+(?:\.\d+)?)["″]? ?[×x] ?(\d{2})(?: ?TPI)?$/i;

function thread(text: string): Parsed<string> {
  const metric = METRIC.exec(text);
  if (metric) {
    const [, size = '', pitch] = metric;
    if (Number(size) === 0 || (pitch !== undefined && (Number(pitch) === 0 || Number(pitch) >= Number(size) / 2)))
      return fail(`no metric thread is ${text}`, 'the pitch in mm comes behind the diameter: M8×1.25 (ISO 261)');
    const left = /LH|left/i.test(text) ? ' LH' : '';
    return ok(`M${Number(size)}${pitch === undefined ? '' : `×${Number(pitch)}`}${left}`);
  }
  const unified = UNIFIED.exec(text);
  if (unified) return unifiedThread(text, unified);
  const npt = NPT.exec(text);
  if (npt) return ok(`${npt[1]}${npt[2] === undefined ? '' : `-${npt[2]}`} ${npt[3]?.toUpperCase()}`);
  const pipe = PIPE.exec(text);
  if (pipe) return ok(`${pipe[1]?.toUpperCase()} ${pipe[2]}`);
  const inch = INCH_BY.exec(text);
  if (inch) return ok(`${Number(inch[1])} in×${inch[2]} TPI`);
  return fail(
    `"${text}" is no designation of a thread`,
    'a thread reads M8×1.25, 3/8-24 UNF, 10-32 UNF, 1/4-18 NPT, G 1/4 or 1.37×24 TPI',
  );
}

function unifiedThread(text: string, [, size = '', perInch = '', written]: RegExpExecArray): Parsed<string> {
  const known = UNIFIED_SERIES[size.replace('#', '')];
  const [coarse, fine] = known ?? [];
  const series = written?.toUpperCase();
  const count = Number(perInch);
  if (known && ((series === 'UNC' && count !== coarse) || (series === 'UNF' && count !== fine)))
    return fail(
      `${text} is no ${series} thread`,
      `of ${size.replace('#', '')} the coarse thread has ${coarse} threads an inch (UNC), the fine one ${fine} (UNF)`,
    );
  const own = series ?? (count === coarse ? 'UNC' : count === fine ? 'UNF' : 'UN');
  return ok(`${size.replace('#', '')}-${count} ${own}`);
}

/** Source: SAE J300, table 1, winter grades and grades at operating temperature; SAE J306 for gear oils; from memory. */
const WINTER = new Set([0, 5, 10, 15, 20, 25, 70, 75, 80, 85]);
const SUMMER = new Set([8, 12, 16, 20, 30, 40, 50, 60, 65, 70, 75, 80, 85, 90, 110, 140, 190, 250]);
/** Source: ISO 3448, table 1 (mm²/s at 40 °C); from memory. */
const ISO_VG = new Set([2, 3, 5, 7, 10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680, 1000, 1500, 2200, 3200]);

function grade(text: string): Parsed<string> {
  const multi = /^(?:SAE ?)?(\d{1,2}) ?W(?: ?[-/–]? ?(\d{1,3}))?$/i.exec(text);
  if (multi) {
    const [, winter = '', summer] = multi;
    if (!WINTER.has(Number(winter)) || (summer !== undefined && !SUMMER.has(Number(summer))))
      return fail(`no oil is graded ${text}`, 'SAE J300 and J306 list the grades, such as 5W-30, 10W-40, 80W-90');
    return ok(`${Number(winter)}W${summer === undefined ? '' : `-${Number(summer)}`}`);
  }
  const single = /^SAE ?(\d{1,3})$/i.exec(text);
  if (single && SUMMER.has(Number(single[1]))) return ok(`SAE ${Number(single[1])}`);
  const industrial = /^ISO[- ]?VG ?(\d{1,4})$/i.exec(text);
  if (industrial && ISO_VG.has(Number(industrial[1]))) return ok(`ISO VG ${Number(industrial[1])}`);
  return fail(
    `"${text}" is no grade of viscosity`,
    'a grade reads 10W-40 or SAE 30 (SAE J300), or ISO VG 32 (ISO 3448)',
  );
}
