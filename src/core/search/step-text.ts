import { type Locale, wording } from '../locale/index.ts';
import type { Body, ElementNode, Lesson, Machine, Step } from '../model/index.ts';
import { rowShown, rowsFor } from '../programme/index.ts';
import type { System } from '../spec/index.ts';

/** What stands on lines of its own; words on both sides of it belong to two sentences. */
const BLOCKS = new Set(['p', 'li', 'ul', 'ol', 'blockquote', 'h4', 'h5', 'h6', 'table', 'tr', 'td', 'th', 'div']);

/**
 * What a step says, in sentences, with its values where they are cited: a value of one row bare, one that differs by year
 * or variant with whom each is for, so that nobody takes somebody else's.
 */
export function stepText(
  lesson: Lesson,
  machine: Machine | undefined,
  step: Step,
  systems?: readonly System[],
  locale?: Locale,
): string {
  const value = (id: string) => {
    const rows = machine ? rowsFor(machine, lesson, id, locale) : [];
    return rows
      .flatMap(({ row, whose }) => {
        const shown = row.quantity && rowShown(row, systems, locale);
        if (!shown) return [];
        return [whose ? `${shown.primary} (${whose})` : shown.primary];
      })
      .join(wording(locale).t(' or '));
  };
  const said = (body: Body): string => body.map((node) => (typeof node === 'string' ? node : inside(node))).join('');
  const inside = (node: Exclude<Body[number], string>): string => {
    if ('tag' in node) return BLOCKS.has(node.tag) ? ` ${said(node.children)} ` : said(node.children);
    return ofElement(node);
  };
  const ofElement = ({ element, attributes, children }: ElementNode): string => {
    switch (element) {
      case 'Spec':
        return value(attributes.of ?? '');
      case 'Cue':
      case 'Uses':
      case 'Discuss':
        return ' ';
      case 'KeyPoint':
        return ` ${said(children)} ${attributes.why ? sentence(attributes.why) : ''} `;
      default:
        return ` ${said(children)} `;
    }
  };
  return said(step.body)
    .replaceAll(/\s+/g, ' ')
    .replaceAll(/ (?=[.,;:!?])/g, '')
    .trim();
}

function sentence(words: string): string {
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}${/[.!?]$/.test(words) ? '' : '.'}`;
}
