import type { Nodes, Root } from 'mdast';
import type { MdxJsxAttribute, MdxJsxExpressionAttribute } from 'mdast-util-mdx-jsx';
import { visit } from 'unist-util-visit';
import {
  type Diagnostic,
  elementNamed,
  PLAIN_HTML,
  type Place,
  plainElement,
  VOCABULARY,
  type VocabularyRow,
} from '../model/index.ts';
import { pictureFile, safeLink } from './addresses.ts';
import { tell } from './faults.ts';
import { attributeOf, isJsx, type JsxElement } from './jsx.ts';
import { didYouMean } from './nearest.ts';
import { plainText } from './plain-text.ts';
import type { Points } from './points.ts';
import { listWords } from './words.ts';

const NAMES = VOCABULARY.map(({ name }) => name);
const RUNS = new Set(['script', 'style', 'iframe', 'object', 'embed', 'form', 'base', 'link', 'meta']);

/** What to write in place of an element that a lesson may not have. */
const INSTEAD: Readonly<Record<string, string>> = {
  a: 'write a link as [words](https://…)',
  img: 'write a picture as ![what it shows](picture.jpg)',
  p: 'leave an empty line between paragraphs',
  b: 'write **bold** between stars',
  strong: 'write **bold** between stars',
  i: 'write *so* between stars',
  em: 'write *so* between stars',
  code: 'write `code` between backquotes',
  h1: 'the title stands in the front matter; ## opens a chapter',
  h2: 'open a chapter with ##',
  h3: 'open a step with ###',
  ul: 'begin each line of a list with - and a space',
  ol: 'begin each line of a list with 1. and a space',
  li: 'begin each line of a list with - and a space',
  table: 'write a table with | between its columns',
  div: 'leave the tag out; its words stand by themselves',
  iframe: 'write a link as [words](https://…); a film is shown as a recording',
  video: 'name the film as a recording, and its moments by <Cue />',
  audio: 'name the sound as a recording, and its moments by <Cue />',
};

/** A picture as a lesson names it. */
export interface PictureNamed {
  /** Relative to the content folder. */
  readonly file: string;
  readonly place: Place;
}

/**
 * Everything of a lesson that is not on the allow-list, each at its place: code, elements, attributes, addresses.
 *
 * @param tree before it is sectioned, so that headings are looked at too
 * @returns the findings, and the pictures that may be shown
 */
export function refusals(
  tree: Root,
  points: Points,
): { readonly diagnostics: Diagnostic[]; readonly pictures: PictureNamed[] } {
  const pictures: PictureNamed[] = [];
  const addresses = new Map<string, string>();
  visit(tree, 'definition', ({ identifier, url }) => {
    if (!addresses.has(identifier)) addresses.set(identifier, url);
  });
  const found: Diagnostic[] = [];
  const placeOf = ({ position }: { position?: Nodes['position'] }): Place =>
    points.place(position?.start.offset ?? 0, position?.end.offset ?? 0);
  const refuse = (
    rule: Parameters<typeof tell>[0],
    at: { position?: Nodes['position'] },
    message: string,
    help: string,
  ) => found.push(tell(rule, placeOf(at), message, help));

  const element = (node: JsxElement): void => {
    const name = node.name ?? '';
    const row = elementNamed(name);
    // What is no element is told as such, not again for what it carries.
    if (row || plainElement(name)) for (const attribute of node.attributes) code(attribute, name);
    if (row) vocabulary(node, row);
    else plain(node, name);
  };

  const code = (attribute: MdxJsxAttribute | MdxJsxExpressionAttribute, name: string): void => {
    if (attribute.type === 'mdxJsxExpressionAttribute')
      refuse('code-in-lesson', attribute, `<${name}> takes {…}, which is code`, 'write each attribute as name="value"');
    else if (/^on/i.test(attribute.name))
      refuse('code-in-lesson', attribute, `${attribute.name} holds code`, `leave ${attribute.name} out`);
    else if (typeof attribute.value === 'object' && attribute.value !== null) {
      const plain = /^\s*(['"`]?)([\w.,:;@ -]*)\1\s*$/.exec(attribute.value.value)?.[2] ?? '…';
      refuse(
        'code-in-lesson',
        attribute,
        `${attribute.name}={…} is code`,
        `write ${attribute.name}="${plain}" in quotes`,
      );
    }
  };

  const strays = (node: JsxElement, name: string, allowed: readonly string[]): number => {
    let count = 0;
    const seen = new Set<string>();
    for (const attribute of node.attributes) {
      if (attribute.type !== 'mdxJsxAttribute' || /^on/i.test(attribute.name)) continue;
      if (!allowed.includes(attribute.name)) {
        count++;
        const help =
          allowed.length > 0
            ? didYouMean(attribute.name, allowed, `<${name}> takes ${listWords(allowed)}`)
            : `leave ${attribute.name} out`;
        refuse('attribute-wrong', attribute, `<${name}> has no attribute "${attribute.name}"`, help);
      } else if (seen.has(attribute.name))
        refuse('attribute-wrong', attribute, `<${name}> has ${attribute.name}= twice`, 'leave one of the two out');
      seen.add(attribute.name);
    }
    return count;
  };

  const vocabulary = (node: JsxElement, row: VocabularyRow): void => {
    // A mistyped attribute is told once, not again as the one that is missing.
    if (strays(node, row.name, Object.keys(row.attributes)) > 0) return;
    // What {…} holds is not read: it may be what seems to be missing.
    if (node.attributes.some(({ type }) => type === 'mdxJsxExpressionAttribute')) return;
    const missing = row.needs.filter((name) => !attributeOf(node, name));
    if (missing.length > 0)
      refuse('attribute-wrong', node, `<${row.name}> lacks ${missing.join(', ')}=`, `${row.name} ${row.means}`);
    if (row.oneOf && countGiven(node, row.oneOf) !== 1)
      refuse(
        'attribute-wrong',
        node,
        `<${row.name}> takes exactly one of ${row.oneOf.join(', ')}`,
        `write one <${row.name} /> for each thing`,
      );
  };

  const plain = (node: JsxElement, name: string): void => {
    const row = plainElement(name);
    if (row) strays(node, name, [...row.attributes, 'lang']);
    else if (RUNS.has(name.toLowerCase()) && name !== 'iframe')
      refuse(
        'code-in-lesson',
        node,
        `<${name}> does not belong in a lesson`,
        'leave it out, with all that stands in it',
      );
    else if (name === '')
      refuse('element-unknown', node, '<> is not an element of a lesson', 'leave <> and </> out; the words stay');
    else {
      const close = didYouMean(
        name,
        [...NAMES, ...PLAIN_HTML.map(({ name }) => name)],
        `a lesson has ${listWords(NAMES)}`,
      );
      refuse('element-unknown', node, `<${name}> is not an element of a lesson`, INSTEAD[name] ?? close);
    }
  };

  const picture = (node: Nodes, address: string): void => {
    const found = pictureFile(address);
    if ('file' in found) pictures.push({ file: found.file, place: placeOf(node) });
    else refuse('address-unsafe', node, found.problem, found.help);
  };

  const walk = (node: Nodes): void => {
    switch (node.type) {
      case 'mdxjsEsm':
        refuse(
          'code-in-lesson',
          node,
          `${/^\s*export/.test(node.value) ? 'export' : 'import'} is code`,
          'leave the line out: the elements of a lesson need no import; where it is prose, begin the line with another word',
        );
        break;
      case 'mdxFlowExpression':
      case 'mdxTextExpression':
        if (!/^\s*(\/\*[\s\S]*?\*\/\s*)*$/.test(node.value) || node.value.trim() === '')
          refuse('code-in-lesson', node, '{…} is code', 'in words, write { as &#123; and } as &#125;');
        break;
      case 'link':
      case 'definition':
        if (!safeLink(node.url))
          refuse(
            'address-unsafe',
            node,
            `the link leads to ${node.url.slice(0, 40).replace(/\s+/g, ' ')}, which is no address of a page`,
            'a link begins with https://, http://, mailto:, tel:, # or the path of a page',
          );
        break;
      case 'heading':
        if (node.depth === 1)
          refuse('heading-level', node, 'a # heads the page, not a chapter', 'open a chapter with ##, a step with ###');
        else if (node.depth <= 3 && plainText(node) === '')
          refuse('heading-empty', node, 'the heading has no words', 'write what is done here behind the #');
        break;
      case 'image':
        picture(node, node.url);
        break;
      case 'imageReference':
        picture(node, addresses.get(node.identifier) ?? '');
        break;
      default:
        if (isJsx(node)) element(node);
    }
    if ('children' in node) for (const child of node.children) walk(child);
  };
  walk(tree);
  return { diagnostics: found, pictures };
}

function countGiven(node: JsxElement, names: readonly string[]): number {
  return names.filter((name) => attributeOf(node, name)).length;
}

/** True when an element of the vocabulary has what it needs, so that its meaning is known. */
export function isComplete(node: JsxElement, { needs, oneOf }: VocabularyRow): boolean {
  return needs.every((name) => attributeOf(node, name)) && (!oneOf || countGiven(node, oneOf) === 1);
}
