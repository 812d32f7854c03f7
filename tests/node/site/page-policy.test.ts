import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { allowStylesOfHead, pagePolicy } from '../../../src/node/site/page-policy.ts';

// CSP Level 3 (W3C), 2.3.1: hash-source is the base64 of the digest of the element's text; 6.7.3.3: an inline style
// applies when its text matches one of them.
const hashOf = (text: string) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
const page = (head: string, body: string) =>
  `<head><meta http-equiv="content-security-policy" content="${pagePolicy()}" />${head}</head><body>${body}</body>`;
const stylesAllowed = (html: string) => /style-src ([^;]*)/.exec(html)?.[1]?.split(' ').slice(1);

describe('styles that stand in a page', () => {
  test('each sheet of the head is allowed by its hash, letter by letter', () => {
    const html = allowStylesOfHead(page('<style>a{b:c}</style><style>\n.d > e{}\n</style>', ''));
    expect(stylesAllowed(html)).toEqual([hashOf('a{b:c}'), hashOf('\n.d > e{}\n')]);
  });

  test('one in the body stays dead', () => {
    expect(stylesAllowed(allowStylesOfHead(page('', '<style>* { display: none }</style>')))).toEqual([]);
  });

  test('one that stands there twice is named once', () => {
    const html = allowStylesOfHead(page('<style>a{}</style><style>a{}</style>', ''));
    expect(stylesAllowed(html)).toEqual([hashOf('a{}')]);
  });

  test('the rest of the page stays as it is', () => {
    const html = page('<title>style-src</title>', "<p>style-src 'self'</p>");
    expect(allowStylesOfHead(html)).toBe(html);
  });
});
