import type { Decision } from './session.ts';

/** Answers that are remembered; older ones go first. */
const MOST = 2000;

/** Answers to proposals as they are kept between visits. */
export function printDecisions(decided: readonly Decision[]): string {
  return JSON.stringify(decided.slice(-MOST));
}

/** Answers as they were kept; what is none is left out. */
export function readDecisions(text: string | null): Decision[] {
  if (!text) return [];
  try {
    const kept: unknown = JSON.parse(text);
    return Array.isArray(kept) ? kept.filter(isDecision) : [];
  } catch {
    return [];
  }
}

function isDecision(value: unknown): value is Decision {
  if (typeof value !== 'object' || value === null) return false;
  const { kind, start, end, lesson } = value as Readonly<Record<keyof Decision, unknown>>;
  return (
    (kind === 'cut' || kind === 'step') &&
    Number.isSafeInteger(start) &&
    Number.isSafeInteger(end) &&
    Number(start) <= Number(end) &&
    (lesson === undefined || typeof lesson === 'string')
  );
}
