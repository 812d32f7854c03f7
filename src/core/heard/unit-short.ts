import { type Unit, unitOf } from '../spec/index.ts';
import type { NumberRead } from './number-read.ts';
import type { Said } from './said.ts';

/** What is fastened. */
const FASTENED =
  /\b(?:bolts?|nuts?|screws?|studs?|faceplate|stem|bars?|clamps?|pinch|caps?|cover|plugs?|lockring|axle|terminals?|lugs?|torque\w*|tighten\w*|head|flange|star pattern|crank|seatpost|carbon)\b/;
const PUSHED =
  /\b(?:force|pull|pulls|push|pushes|press|preload|tension|load|spring|deflect\w*|squeeze|drag|belt|effort|hang|lever|pedal)\b/;

/** `five newtons on the faceplate`: of what is fastened, newtons are newton metres. */
export function isTightened({ before, after }: Said, to: number): boolean {
  const talk = before + after(to);
  return FASTENED.test(talk) && !PUSHED.test(talk);
}

/** What is told in thousands of ohms. */
const RESISTS =
  /\b(?:ohms?|resist(?:or|ors|ance)|secondary|primary|coil|photocell|meg|megohms?|(?:plug )?(?:boot|cap|lead)|thermistor|sensor|probe|suppressor|potentiometer|pot|element)\b/;
const HEATED = /\b(?:heaters?|kettles?|shower|oven|hob|cooker|immersion|element|boiler|welder|charger)\b/;
/** Done every so far, or so far after something. */
const ON_THE_WAY = /\b(?:every|ride|riding|ridden|rode|driven|mileage|service|chain|relube|within the first)\b/;

/** `two thousand k`, said of a way; `the secondary's five point six K`, of what resists. */
export function thousandsOf(spelled: string, number: NumberRead, said: Said, to: number): Unit | undefined {
  const written = spelled.replace('ay', '');
  if (written === 'k' && number.value >= 500 && (!number.figures || number.scale)) return unitOf('distance', 'km');
  const talk = `${said.earlier} ${said.before} ${said.after(to).slice(0, 40)}`;
  if (RESISTS.test(talk) || (written === 'K' && !Number.isInteger(number.value))) return unitOf('resistance', 'kΩ');
  if (number.value <= 25 && HEATED.test(talk)) return unitOf('power', 'kW');
  return number.value >= 50 && !number.figures && ON_THE_WAY.test(talk) ? unitOf('distance', 'km') : undefined;
}
