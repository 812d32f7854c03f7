import { fail, ok, type Parsed } from '../time/index.ts';
import { convert } from './convert.ts';
import { METRIC_PITCHES } from './pitches.ts';

/** A thread, with what its strength follows from. */
export interface Thread {
  /** As people write it: `M10×1.25`, `3/8-16`. */
  readonly name: string;
  /** mm */
  readonly diameter: number;
  /** Area the load acts on, mm². */
  readonly stressArea: number;
  readonly system: 'metric' | 'inch';
}

const INCH_MM = 25.4;

/** `1-8`, `1"-14`: one inch in its three series (ASME B1.1, from memory). `2-56` and its like are numbers of small screws. */
const ONE_INCH = /^\s*1["″]?\s*-\s*(8|12|14)(?:\s*UN\w*)?\s*$/i;

/**
 * A thread from its size: `M10`, `M10×1.25`, `M10 x 1.25`, `3/8-16`, `1/4-28 UNF`. Without a pitch the coarse one.
 *
 * Source of the stress areas: ISO 898-1, As = π/4 · ((d2 + d3)/2)², which is π/4 · (d − 0.9382 P)²; for inch threads
 * 0.7854 · (D − 0.9743/n)² (SAE J429 tables follow it).
 */
export function parseThread(written: string): Parsed<Thread> {
  const metric = /^\s*M\s*(\d+(?:\.\d+)?)\s*(?:[×x*]\s*(\d+(?:\.\d+)?))?(?:\s*[×x]\s*\d+)?\s*$/i.exec(written);
  if (metric) {
    const diameter = Number(metric[1]);
    const pitch = metric[2] === undefined ? METRIC_PITCHES[String(diameter)]?.[0] : Number(metric[2]);
    if (pitch === undefined || pitch >= diameter / 2)
      return fail(`the thread ${written} has no pitch that is known`, `write it as M${diameter}×pitch`);
    const stressArea = (Math.PI / 4) * (diameter - 0.9382 * pitch) ** 2;
    return ok({ name: `M${diameter}×${pitch}`, diameter, stressArea, system: 'metric' });
  }
  const one = ONE_INCH.exec(written);
  const inch = /^\s*(?:(\d+)[ -])?(\d+)\/(\d+)["″]?\s*-\s*(\d+)(?:\s*UN\w*)?\s*$/i.exec(written);
  if (one || inch) {
    const [, whole = '0', top, bottom, perInch] = one ? ['', '1', '0', '1', one[1]] : (inch ?? []);
    const diameter = Number(whole) + Number(top) / Number(bottom);
    const area = (Math.PI / 4) * (diameter - 0.9743 / Number(perInch)) ** 2;
    return ok({
      name: written.trim(),
      diameter: diameter * INCH_MM,
      stressArea: area * INCH_MM * INCH_MM,
      system: 'inch',
    });
  }
  return fail(`"${written}" is not a thread size`, 'a size reads M10×1.25, M8, 3/8-16 or 1/4-28');
}

const PSI = convert(1, 'pressure', 'psi', 'MPa');

/** Proof stress, MPa, up to a diameter in mm. Source: ISO 898-1:2013 (8.8, 10.9, 12.9); 4.8, 5.8 and 9.8 from memory. */
const METRIC_PROOF: Readonly<Record<string, readonly (readonly [number, number])[]>> = {
  '4.8': [[100, 310]],
  '5.8': [[100, 380]],
  '8.8': [
    [16, 580],
    [100, 600],
  ],
  '9.8': [[16, 650]],
  '10.9': [[100, 830]],
  '12.9': [[100, 970]],
};
/** Source: SAE J429, psi. */
const INCH_PROOF: Readonly<Record<string, readonly (readonly [number, number])[]>> = {
  '2': [[0.75 * INCH_MM, 55_000 * PSI]],
  '5': [
    [INCH_MM, 85_000 * PSI],
    [1.5 * INCH_MM, 74_000 * PSI],
  ],
  '8': [[1.5 * INCH_MM, 120_000 * PSI]],
};

/**
 * The stress that a fastener of a property class or grade bears without lasting stretch.
 *
 * @returns MPa; nothing for a class that is not in the tables
 */
export function proofStress(thread: Thread, strength: string): number | undefined {
  const name = strength.replace(/^\s*(class|grade)\s*/i, '').trim();
  const table = thread.system === 'metric' ? METRIC_PROOF[name] : INCH_PROOF[name];
  return table?.find(([upTo]) => thread.diameter <= upTo + 1e-9)?.[1];
}

/** State of the threads, as a row of the spec table names it. */
export type ThreadCondition = 'dry' | 'oiled' | 'greased' | 'anti-seize' | 'threadlocker';

/**
 * Nut factor K. Source: Shigley, Mechanical Engineering Design, 9th ed., Table 8-15: 0.20 when nothing is known,
 * 0.18 lubricated, 0.12 anti-seize. Wet threadlocker is taken as 0.20 (common practice, no source).
 */
export function nutFactor(condition: ThreadCondition | undefined): number {
  if (condition === 'anti-seize') return 0.12;
  return condition === 'oiled' || condition === 'greased' ? 0.18 : 0.2;
}

/** Preload of a fastener, N, from T = K·d·F. @param torque N·m; @param diameter mm */
export function preload(torque: number, factor: number, diameter: number): number {
  return (torque * 1000) / (factor * diameter);
}

/** Torque, N·m, for a preload, from T = K·d·F. @param force N; @param diameter mm */
export function torqueFor(force: number, factor: number, diameter: number): number {
  return (factor * diameter * force) / 1000;
}

/** How a torque loads a fastener. */
export interface Loading {
  readonly thread: Thread;
  readonly factor: number;
  /** N */
  readonly preload: number;
  readonly proofLoad: number;
  /** preload over proof load */
  readonly share: number;
}

/** @param torque N·m; @returns nothing where size or class are not in the tables */
export function loading(
  torque: number,
  fastener: { readonly size: string; readonly class?: string | undefined },
  condition: ThreadCondition | undefined,
): Loading | undefined {
  const read = parseThread(fastener.size);
  if (!read.ok || fastener.class === undefined) return undefined;
  const thread = read.value;
  const stress = proofStress(thread, fastener.class);
  if (stress === undefined) return undefined;
  const factor = nutFactor(condition);
  const force = preload(torque, factor, thread.diameter);
  const proofLoad = stress * thread.stressArea;
  return { thread, factor, preload: force, proofLoad, share: force / proofLoad };
}

/** The arithmetic of a loading in one line. */
export function loadingInWords(torque: number, { thread, factor, preload: force, proofLoad, share }: Loading): string {
  const kilo = (newtons: number) => `${(newtons / 1000).toFixed(1)} kN`;
  return `F = T/(K·d) = ${round(torque)} N·m/(${factor} × ${round(thread.diameter)} mm) = ${kilo(force)}, ${Math.round(share * 100)} % of the proof load of ${kilo(proofLoad)} (${round(thread.stressArea)} mm² of ${thread.name})`;
}

function round(value: number): string {
  return String(Number(value.toPrecision(3)));
}
