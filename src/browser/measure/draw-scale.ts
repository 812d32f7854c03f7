import { type Amount, readingScale } from '../../core/spec/index.ts';

const percent = (share: number) => `${(share * 100).toFixed(2)}%`;

/** Draws the limits of a row as a scale with the reading on it; what it says stands in the verdict beside it as words. */
export function drawScale(host: HTMLElement, amount: Amount | undefined, reading: number | undefined): void {
  const scale = amount && readingScale(amount, reading);
  host.hidden = !scale;
  const parts = (scale?.zones ?? []).map(({ verdict, from, to }) => {
    const zone = part('scale-zone', '', from);
    zone.dataset.verdict = verdict;
    zone.style.width = percent(to - from);
    return zone;
  });
  const limits = (scale?.limits ?? []).map(({ value, at }) => part('scale-limit', String(value), at));
  const hand = scale?.reading
    ? [part(`scale-reading${scale.reading.beyond ? ' beyond' : ''}`, '', scale.reading.at)]
    : [];
  host.replaceChildren(...parts, ...limits, ...hand);
}

function part(className: string, text: string, at: number): HTMLElement {
  const made = document.createElement('span');
  made.className = className;
  made.textContent = text;
  made.style.left = percent(at);
  return made;
}
