const NAMED: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** Text as HTML: nothing in it opens an element or ends an attribute. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => NAMED[sign] ?? sign);
}

/** Text of an XML 1.0 document; signs that it cannot hold (2.2, Char) are left out. */
export function escapeXml(text: string): string {
  return text
    .replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '')
    .replace(/[&<>"]/g, (sign) => NAMED[sign] ?? sign);
}

/** A value as JSON inside `<script type="application/json">`: no text in it can end the element or open a comment. */
export function scriptJson(value: unknown): string {
  return JSON.stringify(value).replace(
    /[<>&\u2028\u2029]/g,
    (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/**
 * Text as a string of CSS inside `<style>`, quotes included: no text in it can end the string or the element.
 * Source: CSS Syntax Module Level 3, 4.3.7 (escapes are hexadecimal, ended by a space).
 */
export function cssString(text: string): string {
  return `"${text.replace(/[^\p{L}\p{N} .,;:!?·()/_-]/gu, (sign) => `\\${(sign.codePointAt(0) ?? 0).toString(16)} `)}"`;
}
