import { type CorrectionNote, escapeHtml, type TextShown, type ValueShown } from '../pages/index.ts';

/** Text of a lesson as HTML, its elements too; a book shows the values for all machines, for it cannot ask. */
export function htmlOf(text: TextShown): string {
  return text
    .map((part) => {
      if (typeof part === 'string') return part;
      switch (part.show) {
        case 'values':
          return valuesHtml(part.values);
        case 'kit':
          return `<strong class="thing">${escapeHtml(part.text)}</strong>`;
        case 'key-point': {
          const why = part.why === undefined ? '' : `<p>Because ${escapeHtml(part.why)}.</p>`;
          return `<div class="key-point"><p class="word">Key point</p>${htmlOf(part.text)}${why}</div>`;
        }
        case 'signal':
          return `<div class="signal ${part.word}"><p class="word">${part.word.toUpperCase()}</p>${htmlOf(part.text)}</div>`;
        case 'discuss':
          return `<div class="discuss"><p class="word">Talk about it</p>${htmlOf(part.text)}</div>`;
        default:
          return part satisfies never;
      }
    })
    .join('');
}

export function valuesHtml(values: readonly ValueShown[]): string {
  return values.map((shown) => `<span class="spec">${valueHtml(shown)}</span>`).join('; ');
}

/** With whom it holds for, both units and where it comes from: a value never stands alone. */
export function valueHtml({ whose, value, critical, verdict }: ValueShown): string {
  return [
    whose === undefined ? '' : `${escapeHtml(whose)}: `,
    `<strong>${escapeHtml(value.primary)}</strong>`,
    value.secondary === undefined ? '' : ` (${escapeHtml(value.secondary)})`,
    critical ? ' <em>critical</em>' : '',
    verdict === undefined ? '' : ` ${escapeHtml(verdict)}`,
    ` <small>${escapeHtml(value.source)}</small>`,
  ].join('');
}

export function correctionHtml({ on, said, shown, title, values, note }: CorrectionNote): string {
  const words = (verb: string, text: string | undefined) =>
    text === undefined ? '' : `<p>The recording ${verb} “${escapeHtml(text)}”.</p>`;
  return `<div class="signal correction"><p class="word">Correction, ${escapeHtml(on)}</p>${words('says', said)}${words('shows', shown)}<p>${escapeHtml(title)}: ${valuesHtml(values)}</p>${note === undefined ? '' : `<p>${escapeHtml(note)}</p>`}</div>`;
}
