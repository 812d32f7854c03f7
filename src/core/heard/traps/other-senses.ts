import type { InContext } from './trap.ts';

/** Something held at, brought to or lost from. */
const HELD_AT =
  /\b(is|at|to|of|hold|holds|held|holding|lose|loses|lost|exceed|exceeds|reach|reaches)\s+((about|around|only|just|over|under)\s+)?$/;
/** Bars of steel: `one bar`, `two bars`, unless the talk is of pressure. */
export function isBarOfSteel({ pieces, number, unit, said: { before, after }, to }: InContext): boolean {
  if (unit.symbol !== 'bar') return false;
  if (/^ (?:nuts?|mounts?|tape|clamps?|ends?|covers?|studs?)\b/.test(after(to))) return true;
  // `a three-quarter bar`, `the groove says it's a one-point-three bar`: its thickness.
  if (
    (number.denominator !== undefined || /\b(?:groove|chain|saw)\b/.test(before)) &&
    pieces[number.to]?.text !== '-' &&
    /\b(?:an?|the|that|this)\s+$/.test(before)
  )
    return true;
  if (
    /\b(pressures?|tyres?|tires?|inflat\w+|pump\w*|air|gauge|psi|kpa|blow|boost|leak\w*|cold|compression|front|rear|vacuum|suction|vessel|boiler|system|relief|static|steam|hydraulic|regulator|main|mains)\b/.test(
      `${before} ${after(to)}`,
    )
  )
    return false;
  const counted = pieces[to - 1]?.lower === 'bars' && Number.isInteger(number.value);
  return counted || (!number.figures && number.value === 1 && !HELD_AT.test(before));
}

/** `one foot on the floor`: a part of the body. */
export function isFootOfSomebody({ number, unit, said, to }: InContext): boolean {
  return (
    unit.symbol === 'ft' &&
    Number.isInteger(number.value) &&
    number.value <= 2 &&
    !number.article &&
    /^\s*(on|flat|under|planted|off)\b/.test(said.after(to))
  );
}

/** `inch by inch`. */
const IDIOM = /\|\W*by inch\b|\binch by \|/;
/** `give them an inch and they'll take a mile`. */
const GIVEN = /\bgive (\w+ ){1,2}$/;
export function isIdiom({ said, to }: InContext): boolean {
  if (GIVEN.test(said.before) && /\btake a mile\b/.test(said.after(to))) return true;
  if (
    /\bwithin (?:about )?$/.test(said.before) &&
    /^ of (?:its|his|her|my|their|your) li(?:fe|ves)\b/.test(said.after(to))
  )
    return true;
  return IDIOM.test(`${said.before}|${said.after(to)}`);
}
