import type { Body, ElementName, ElementNode, Lesson, Machine, Shop, SignalWord } from '../model/index.ts';
import { rowsFor } from '../programme/index.ts';
import { kitTitle } from '../search/index.ts';
import { escapeHtml } from './escape.ts';
import { MissingValue } from './missing-value.ts';
import { type ValueShown, valuesShown } from './value-shown.ts';

/** What an element of a lesson becomes on a page, in plain values; each has its component in `Body.astro`. */
export type ElementShown =
  | { readonly show: 'values'; readonly spec: string; readonly values: readonly ValueShown[] }
  | { readonly show: 'kit'; readonly text: string }
  | { readonly show: 'key-point'; readonly why?: string; readonly text: TextShown }
  | { readonly show: 'signal'; readonly word: SignalWord; readonly text: TextShown }
  | { readonly show: 'discuss'; readonly minutes: string; readonly text: TextShown };

/** Text of a lesson for a page: HTML of the allow-list, elements between. A stretch of HTML need not be balanced. */
export type TextShown = readonly (string | ElementShown)[];

/** What the text of a lesson is shown with. */
export interface TextSetting {
  readonly shop: Shop;
  readonly lesson: Lesson;
  readonly machine: Machine | undefined;
  /** Address of a file of the content folder on the site. */
  readonly fileAddress: (file: string) => string;
}

/** Elements of HTML that hold nothing and have no end tag. */
const VOID = new Set(['br', 'hr', 'img', 'input']);

const signal =
  (word: SignalWord) =>
  (node: ElementNode, setting: TextSetting): ElementShown => ({
    show: 'signal',
    word,
    text: textShown(node.children, setting),
  });

/** What each element of the vocabulary shows; nothing where only the heading tells of it. */
const SHOWN: Readonly<Record<ElementName, (node: ElementNode, setting: TextSetting) => ElementShown | undefined>> = {
  Cue: () => undefined,
  Spec: ({ attributes: { of = '' } }, { shop, machine, lesson }) => {
    const values = machine ? valuesShown(shop, machine, rowsFor(machine, lesson, of, shop.locale)) : [];
    if (values.length === 0) throw new MissingValue(of);
    return { show: 'values', spec: of, values };
  },
  Uses: ({ attributes }, { shop }) => {
    const group = (['tool', 'part', 'supply', 'protective'] as const).find((each) => attributes[each] !== undefined);
    const count = Number(attributes.count ?? 1);
    const title = group && kitTitle(shop, group, attributes[group] ?? '');
    return title ? { show: 'kit', text: count === 1 ? title : `${count} × ${title}` } : undefined;
  },
  KeyPoint: ({ attributes: { why }, children }, setting) => ({
    show: 'key-point',
    ...(why ? { why } : {}),
    text: textShown(children, setting),
  }),
  Danger: signal('danger'),
  Warning: signal('warning'),
  Caution: signal('caution'),
  Notice: signal('notice'),
  Discuss: ({ attributes: { minutes = '' }, children }, setting) => ({
    show: 'discuss',
    minutes,
    text: textShown(children, setting),
  }),
};

/** Text of a lesson as a page shows it. */
export function textShown(body: Body, setting: TextSetting): TextShown {
  const out: (string | ElementShown)[] = [];
  let html = '';
  const write = (nodes: Body): void => {
    for (const node of nodes) {
      if (typeof node === 'string') html += html === '' && endsInRows(out.at(-1)) ? afterRows(node) : escapeHtml(node);
      else if ('tag' in node) {
        const { src, ...rest } = node.attributes;
        const attributes = src === undefined ? rest : { ...rest, src: setting.fileAddress(src), loading: 'lazy' };
        const written = Object.entries(attributes).map(([name, value]) => ` ${name}="${escapeHtml(value)}"`);
        html += `<${node.tag}${written.join('')}>`;
        write(node.children);
        if (!VOID.has(node.tag)) html += `</${node.tag}>`;
      } else {
        const shown = SHOWN[node.element](node, setting);
        if (!shown) continue;
        if (html) out.push(html);
        html = '';
        out.push(shown);
      }
    }
  };
  write(body);
  if (html) out.push(html);
  return out;
}

/** True for values that stand on a line each: the text goes on below them. */
function endsInRows(part: string | ElementShown | undefined): boolean {
  return typeof part === 'object' && part.show === 'values' && part.values.length > 1;
}

/** Text below values: a comma or full stop that stood behind them is marked, so that no line begins with it. */
function afterRows(text: string): string {
  const mark = /^[,;:.](?=\s|$)/.exec(text)?.[0];
  return mark === undefined
    ? escapeHtml(text)
    : `<span class="mark-after">${mark}</span>${escapeHtml(text.slice(mark.length))}`;
}
