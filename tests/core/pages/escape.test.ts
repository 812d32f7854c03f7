import fc from 'fast-check';
import { type DefaultTreeAdapterTypes, parseFragment } from 'parse5';
import { expect, test } from 'vitest';
import { cssString, escapeHtml, scriptJson } from '../../../src/core/pages/index.ts';

/** Text that tries to get out: of an element, of an attribute, of a comment, of a string. */
const hostile = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        '</script>',
        '</style>',
        '<!--',
        '-->',
        ']]>',
        '<script',
        '&lt;',
        '"',
        "'",
        '\\',
        '\n',
        '\u2028',
        '\0',
      ),
      fc.string({ unit: 'grapheme', maxLength: 6 }),
    ),
    { maxLength: 8 },
  )
  .map((parts) => parts.join(''));

/** The elements of a piece of HTML, as the parser of the HTML standard reads it (parse5). */
function elements(html: string): DefaultTreeAdapterTypes.Element[] {
  return parseFragment(html).childNodes.filter((node): node is DefaultTreeAdapterTypes.Element => 'tagName' in node);
}

const words = ({ childNodes }: DefaultTreeAdapterTypes.Element) =>
  childNodes.map((node) => ('value' in node ? node.value : '')).join('');

// The HTML parser itself turns NUL into U+FFFD and a carriage return into a line break.
const asParsed = (text: string) => text.replaceAll('\0', '').replace(/\r\n?/g, '\n');

test('text stays text in an element and in an attribute', () => {
  fc.assert(
    fc.property(hostile, (text) => {
      const [p, after, ...more] = elements(`<b title="${escapeHtml(text)}">${escapeHtml(text)}</b><i>end</i>`);
      expect([p?.tagName, after?.tagName, more.length]).toEqual(['b', 'i', 0]);
      expect(p && words(p)).toBe(asParsed(text));
      expect(p?.attrs.map(({ name }) => name)).toEqual(['title']);
    }),
  );
});

test('a value in a script island comes back whole', () => {
  fc.assert(
    fc.property(hostile, (text) => {
      const [script, after] = elements(`<script type="application/json">${scriptJson({ text })}</script><i>end</i>`);
      expect(after?.tagName).toBe('i');
      expect(JSON.parse(script ? words(script) : '')).toEqual({ text });
    }),
  );
});

// CSS Syntax Module Level 3, 4.3.7: an escape is hexadecimal digits and one white space.
test('text in a style element is one string of CSS', () => {
  fc.assert(
    fc.property(hostile, (text) => {
      const [style, after] = elements(`<style>a{content:${cssString(text)}}</style><i>end</i>`);
      expect(after?.tagName).toBe('i');
      const string = /^a\{content:"([^"\n<]*)"\}$/.exec(style ? words(style) : '')?.[1];
      const read = string?.replace(/\\([0-9a-f]{1,6}) /g, (_, code) => String.fromCodePoint(Number.parseInt(code, 16)));
      expect(read).toBe(text);
    }),
  );
});
