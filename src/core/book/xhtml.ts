import { type DefaultTreeAdapterTypes, parseFragment } from 'parse5';
import { escapeXml } from '../pages/index.ts';

type Node = DefaultTreeAdapterTypes.ChildNode;
type Element = DefaultTreeAdapterTypes.Element;

/** What becomes of the addresses in a text. */
export interface Ways {
  /** Where a link leads; nothing where there is no such place, and its words stay. */
  readonly link: (address: string) => string | undefined;
  /** Where a picture lies; nothing where a book cannot show it, and its description stands for it. */
  readonly picture: (address: string) => string | undefined;
}

/**
 * HTML of a page as XHTML of a book (EPUB 3.2, Content Documents, 2): read as a browser reads it, so that what stands in
 * a paragraph and may not comes after it, and written as XML.
 */
export function xhtmlOf(html: string, ways: Ways): string {
  return parseFragment(html)
    .childNodes.map((node) => write(node, ways))
    .join('');
}

/** Only the site's pages load pictures late; tables align by class in a book. */
const DROPPED = new Set(['loading', 'align']);

function write(node: Node, ways: Ways): string {
  if (node.nodeName === '#text' && 'value' in node) return escapeXml(node.value);
  if (!('tagName' in node)) return '';
  const attributes = new Map(node.attrs.map(({ name, value }) => [name, value]));
  const children = () => node.childNodes.map((child) => write(child, ways)).join('');
  if (node.tagName === 'img') {
    const src = ways.picture(attributes.get('src') ?? '');
    if (src === undefined) return `<em>${escapeXml(attributes.get('alt') ?? '')}</em>`;
    attributes.set('src', src);
    attributes.set('alt', attributes.get('alt') ?? '');
  }
  if (node.tagName === 'a' && attributes.has('href')) {
    const href = ways.link(attributes.get('href') ?? '');
    if (href === undefined) return `<span>${children()}</span>`;
    attributes.set('href', href);
  }
  const align = attributes.get('align');
  if (align !== undefined) attributes.set('class', `align-${align}`);
  const written = [...attributes]
    .filter(([name]) => !DROPPED.has(name))
    .map(([name, value]) => ` ${name}="${escapeXml(value)}"`);
  // A paragraph that was ended early leaves an empty one behind.
  if (node.tagName === 'p' && node.childNodes.every(isBlank)) return '';
  return isVoid(node)
    ? `<${node.tagName}${written.join('')}/>`
    : `<${node.tagName}${written.join('')}>${children()}</${node.tagName}>`;
}

function isBlank(node: Node): boolean {
  return node.nodeName === '#text' && 'value' in node && node.value.trim() === '';
}

/** HTML, 13.1.2, void elements; those that a lesson can have. */
function isVoid({ tagName }: Element): boolean {
  return ['br', 'hr', 'img', 'input'].includes(tagName);
}

/** A document of a book. @param body XHTML */
export function documentOf(title: string, language: string, body: string): string {
  return `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE html>
<html xmlns="http://www.w3.org/1999/xhtml" xmlns:epub="http://www.idpf.org/2007/ops" lang="${escapeXml(language)}" xml:lang="${escapeXml(language)}">
<head>
<title>${escapeXml(title)}</title>
<link rel="stylesheet" type="text/css" href="book.css"/>
</head>
<body>
${body}
</body>
</html>
`;
}
