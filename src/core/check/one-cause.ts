import type { Diagnostic, Place, Severity, Shop } from '../model/index.ts';
import type { Finding, Rule } from './rule.ts';

/** A finding on its way to being told, with what it takes for right. */
export type Raw = Diagnostic & Pick<Finding, 'builtOn' | 'unlessMistyped'>;

/** What a rule has found, as its diagnostics. */
export function rawOf({ id, severity, why }: Rule, findings: Iterable<Finding>): Raw[] {
  return [...findings].map((finding): Raw => ({ rule: id, severity, why, ...finding }));
}

/** Rules that doubt a row's value or tolerance, a tool's scale, an edit list or how many come, the surest first. */
const DOUBTS = [
  'yaml-syntax',
  'placeholder-left',
  'value-wrong',
  'key-missing',
  'range-reversed',
  'key-unknown',
  'time-wrong',
  'value-impossible',
  'min-above-max',
  'nominal-outside-limits',
  'tolerance-written-twice',
  'tolerance-without-nominal',
  'value-missing',
  'unit-unknown',
  'unit-ambiguous',
  'unit-missing',
  'unit-of-other-kind',
  'field-of-other-kind',
  'variant-unknown',
  'row-years-outside',
  'unit-unlike-others',
  'thread-unlikely',
  'torque-unlikely',
  'unit-slip-likely',
  'magnitude-unlikely',
  'value-unlikely',
  'tolerance-unlikely',
  'tool-kind-missing',
  'tool-scale-missing',
  'attendees-over-capacity',
] as const;
const RANK: ReadonlyMap<string, number> = new Map(DOUBTS.map((rule, index) => [rule, index]));
/** A day that cannot be is not also long past. */
const IMPOSSIBLE_DAY = 'date-impossible';
/** Minutes that nobody can have meant are why a slot is overrun. */
const UNLIKELY_MINUTES = 'minutes-unlikely';
/** What a tool cannot do for one row it cannot do for the others like it. */
const OF_A_TOOL: ReadonlySet<string> = new Set([
  'wrench-out-of-range',
  'wrench-too-coarse',
  'wrench-low-on-scale',
  'gauge-too-coarse',
]);
const HEARD: ReadonlySet<string> = new Set(['spoken-value-wrong', 'shown-value-wrong']);
const WEIGHT: Readonly<Record<Severity, number>> = { error: 2, warning: 1, info: 0 };

/**
 * One finding for one cause: of several doubts about one row the surest is told, and what builds on the row (a wrench
 * that does not reach its torque, a recording that says another value) is told with it; so is each further row that the
 * same tool does not serve. Nothing is lost: what is told
 * with another stands in its `also`, and the weightiest severity of them all is that of the one.
 */
export function oneForOneCause({ machines, kit, recordings, classes }: Shop, all: readonly Raw[]): Diagnostic[] {
  if (all.length === 0) return [];
  // A table in which nothing is told, and on which nothing told is built, need not be looked at.
  const near = new Set(
    all.flatMap(({ place, builtOn = [], unlessMistyped = [] }) =>
      [place, ...builtOn, ...unlessMistyped].map(({ file }) => file),
    ),
  );
  const rows = machines
    .filter(({ id }) => near.has(`specs/${id}.yaml`))
    .flatMap(({ specs }) => specs.map(({ origin }) => origin.place));
  const tools = [...kit.origin.places].flatMap(([path, place]) => (/^tools\/[^/]+$/.test(path) ? [place] : []));
  // A recording of which nothing is told need not even be looked at.
  const toldOf = new Set(all.map(({ place }) => place.file));
  const edits = recordings
    .filter(({ id }) => toldOf.has(`recordings/${id}.yaml`))
    .flatMap(({ origin }) => origin.places.get('edit') ?? []);
  const attendees = classes.flatMap(({ origin }) => origin.places.get('attendees') ?? []);
  const doubts = new Map<Place, Raw>();
  for (const place of [...rows, ...tools, ...edits, ...attendees]) {
    const [surest] = all
      .filter((each) => RANK.has(each.rule) && within(each.place, place))
      .toSorted(
        (a, b) => (RANK.get(a.rule) ?? 0) - (RANK.get(b.rule) ?? 0) || a.place.start.offset - b.place.start.offset,
      );
    if (surest) doubts.set(place, surest);
  }
  const doubtAt = (place: Place) => [...doubts].find(([other]) => same(other, place))?.[1];
  const order = new Map(all.map((each, index) => [each, index]));
  const builds = ({ builtOn = [] }: Raw) => (builtOn.length > 0 ? 1 : 0);
  // By rule; of one rule that with a reason of its own; else that which stands first.
  const isSurer = (one: Raw, other: Raw) =>
    ((RANK.get(one.rule) ?? Infinity) - (RANK.get(other.rule) ?? Infinity) ||
      builds(one) - builds(other) ||
      (order.get(one) ?? 0) - (order.get(other) ?? 0)) < 0;
  const causeOf = (each: Raw): Raw | undefined => {
    const own = RANK.has(each.rule) ? [...doubts].find(([place]) => within(each.place, place))?.[1] : undefined;
    if (own && own !== each) return isTyped(own) && isTyped(each) ? undefined : own;
    // Two rows that are far apart: the one with a surer doubt of its own is told, of equals the first.
    if (own) return each.builtOn?.map(doubtAt).find((doubt) => doubt && isSurer(doubt, each));
    if (each.rule === 'review-overdue') {
      const impossible = all.find(({ rule, place }) => rule === IMPOSSIBLE_DAY && same(place, each.place));
      if (impossible) return impossible;
    }
    if (each.rule === 'slot-overrun') {
      const slip = all.find(({ rule, place }) => rule === UNLIKELY_MINUTES && place.file === each.place.file);
      if (slip) return slip;
    }
    const typed = each.unlessMistyped?.map(doubtAt).find((doubt) => doubt && isTyped(doubt));
    const built = each.builtOn?.map(doubtAt).find((doubt) => doubt !== undefined);
    // A value that is said and shown stands against one row once.
    const first = HEARD.has(each.rule)
      ? all.find((other) => HEARD.has(other.rule) && same(other.place, each.place))
      : undefined;
    return typed ?? built ?? (first === each ? undefined : first);
  };
  const shareRow = (one: Raw, other: Raw) =>
    one.builtOn?.some(
      (place) => other.builtOn?.some((built) => same(built, place)) === true && rows.some((row) => same(row, place)),
    ) === true;
  const ofTools: { readonly each: Raw; readonly used: readonly Place[] }[] = [];
  const withTool = (each: Raw): Raw | undefined => {
    if (!OF_A_TOOL.has(each.rule)) return undefined;
    // A row that the recording contradicts is looked at first, then what can measure it.
    const said = all.find((other) => HEARD.has(other.rule) && shareRow(other, each));
    if (said) return said;
    const used = each.builtOn?.filter((place) => tools.some((tool) => same(tool, place))) ?? [];
    const first = ofTools.find(
      (other) => other.each.rule === each.rule && used.some((place) => other.used.some((tool) => same(tool, place))),
    )?.each;
    if (!first) ofTools.push({ each, used });
    return first;
  };
  const causes = new Map<Raw, Raw>();
  for (const each of all) {
    const cause = causeOf(each) ?? withTool(each);
    if (cause) causes.set(each, cause);
  }
  const told = new Map<Raw, Raw[]>(all.filter((each) => !causes.has(each)).map((each) => [each, []]));
  for (const each of causes.keys()) {
    let cause = each;
    for (let next = causes.get(cause); next; next = causes.get(cause)) cause = next;
    told.get(cause)?.push(each);
  }
  return [...told].map(([{ builtOn: _, unlessMistyped: __, ...each }, also]) => {
    if (also.length === 0) return each;
    const severity = [each, ...also].map((one) => one.severity).toSorted((a, b) => WEIGHT[b] - WEIGHT[a])[0];
    return {
      ...each,
      ...(severity ? { severity } : {}),
      also: also.map(({ rule, place, message }) => ({ rule, place, message })),
    };
  });
}

/** A fault of reading stands for itself: each is something typed wrong. */
function isTyped({ rule }: Raw): boolean {
  return (RANK.get(rule) ?? Infinity) < DOUBTS.indexOf('value-impossible');
}

function within(inner: Place, outer: Place): boolean {
  return inner.file === outer.file && outer.start.offset <= inner.start.offset && inner.start.offset < outer.end.offset;
}

function same(a: Place, b: Place): boolean {
  return a.file === b.file && a.start.offset === b.start.offset && a.end.offset === b.end.offset;
}
