import { convertToTsx } from '@astrojs/astro2tsx';
import ts from 'typescript';

/** A text of the program that somebody reads. */
export interface TextFound {
  /** What stands in braces is filled in. */
  readonly text: string;
  /** The form for more than one, where the text counts. */
  readonly more?: string;
  /** Handed to `t`, `plural` or `english`, so that it is said in the language of the page. */
  readonly said: boolean;
}

/** Attributes that are read out or shown. */
const ATTRIBUTES = new Set(['aria-label', 'alt', 'title', 'placeholder', 'label', 'data-column', 'description']);
/** Attributes, and arguments of these, that never are. */
const NO_TEXT =
  /^(?:querySelector(?:All)?|closest|matches|getElementById|addEventListener|removeEventListener|listen|getAttribute|hasAttribute|removeAttribute|toggleAttribute|createElement|createElementNS|setProperty|startsWith|endsWith|includes|indexOf|split|replace|replaceAll|join|get|has|set|delete|dispatchEvent|define|regex|RegExp|URL|fetch|literal|enum|createHash|test|exec|import|padStart|padEnd|localeCompare|appendFile|execa|spawn)$/;

/**
 * The texts of a source file that somebody reads, in their order: what is said by `t`, `plural` and `english`; words
 * between tags and in attributes that are shown; and every other string that reads like words, by rules of thumb: it has
 * a space between words or begins with a capital, and is neither a name, a selector, a style nor a piece of a path.
 */
export function textsIn(file: string, source: string): TextFound[] {
  const code = file.endsWith('.astro') ? convertToTsx(source).code : source;
  const kind = file.endsWith('.ts') ? ts.ScriptKind.TS : ts.ScriptKind.TSX;
  const tree = ts.createSourceFile(file, code, ts.ScriptTarget.Latest, false, kind);
  const found: TextFound[] = [];
  const walk = (node: ts.Node): void => {
    for (const part of readOn(node, found)) walk(part);
  };
  walk(tree);
  return found;
}

/** Adds the text that a node is, and gives back the parts of it that may hold more. */
function readOn(node: ts.Node, found: TextFound[]): readonly ts.Node[] {
  if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node) || ts.isTypeNode(node)) return [];
  if (ts.isInterfaceDeclaration(node) || ts.isTypeAliasDeclaration(node)) return [];
  if (ts.isJsxAttribute(node)) return attribute(node, found);
  if (ts.isCallExpression(node) || ts.isNewExpression(node)) return call(node, found);
  if (ts.isBinaryExpression(node) && COMPARED.has(node.operatorToken.kind)) return [];
  if (ts.isCaseClause(node)) return node.statements;
  if (ts.isElementAccessExpression(node)) return [node.expression];
  if (ts.isPropertyAssignment(node)) return [node.initializer];
  if (ts.isJsxText(node)) add(node.text.replaceAll(/\s+/g, ' ').trim(), /\p{L}{2}/u, found);
  const text = textOf(node);
  if (text !== undefined) add(text, READS_LIKE_WORDS, found);
  if (ts.isTemplateExpression(node)) return node.templateSpans.map(({ expression }) => expression);
  const children: ts.Node[] = [];
  ts.forEachChild(node, (child) => {
    children.push(child);
  });
  return children;
}

const COMPARED = new Set([
  ts.SyntaxKind.EqualsEqualsEqualsToken,
  ts.SyntaxKind.ExclamationEqualsEqualsToken,
  ts.SyntaxKind.InKeyword,
]);

function attribute(node: ts.JsxAttribute, found: TextFound[]): readonly ts.Node[] {
  const { initializer } = node;
  const name = ts.isIdentifier(node.name) ? node.name.text : '';
  if (initializer && ts.isStringLiteral(initializer) && ATTRIBUTES.has(name)) add(initializer.text, /\p{L}{2}/u, found);
  // Of an attribute that is not shown only what a function hands on: a handler may say something.
  const mute = /^(?:class|className|style|d|viewBox|transform|href|src|to|id|key)$/.test(name);
  return initializer && ts.isJsxExpression(initializer) && initializer.expression && !mute
    ? [initializer.expression]
    : [];
}

function call(node: ts.CallExpression | ts.NewExpression, found: TextFound[]): readonly ts.Node[] {
  const { expression } = node;
  const name = ts.isPropertyAccessExpression(expression)
    ? expression.name.text
    : ts.isIdentifier(expression)
      ? expression.text
      : '';
  const args = node.arguments ?? [];
  const [first, second, third] = args.map((each) => textOf(each));
  if ((name === 't' || name === 'english') && first !== undefined) {
    found.push({ text: first, said: true });
    return args.slice(1);
  }
  if (name === 'plural' && second !== undefined) {
    const own = third !== undefined && (second + third).includes('{n}');
    if (own) found.push({ text: second, more: third, said: true });
    else found.push({ text: `{n} ${second}`, more: `{n} ${third ?? `${second}s`}`, said: false });
    return args.slice(own ? 3 : args.length);
  }
  return [expression, ...args.filter((each) => !(NO_TEXT.test(name) && textOf(each) !== undefined))];
}

/** The text of a string; of a template with a name in braces for each thing filled in. */
function textOf(node: ts.Node): string | undefined {
  if (ts.isStringLiteralLike(node)) return node.text;
  if (ts.isBinaryExpression(node) && node.operatorToken.kind === ts.SyntaxKind.PlusToken) {
    const [left, right] = [textOf(node.left), textOf(node.right)];
    return left === undefined || right === undefined ? undefined : left + right;
  }
  if (!ts.isTemplateExpression(node)) return undefined;
  const used = new Map<string, number>();
  return (
    node.head.text +
    node.templateSpans
      .map(({ expression, literal }) => {
        const name = nameOf(expression);
        const times = (used.get(name) ?? 0) + 1;
        used.set(name, times);
        return `{${name}${times > 1 ? times : ''}}${literal.text}`;
      })
      .join('')
  );
}

/** What stands in for something filled in: its last name. */
function nameOf(node: ts.Expression): string {
  if (ts.isIdentifier(node)) return node.text;
  if (ts.isPropertyAccessExpression(node)) return node.name.text;
  if (ts.isCallExpression(node) && node.arguments[0]) return nameOf(node.arguments[0]);
  if (ts.isBinaryExpression(node) || ts.isNonNullExpression(node)) return 'value';
  return 'text';
}

/** Two words with a space between, or one word with a capital. */
const READS_LIKE_WORDS =
  /\p{L}{2,}[,.:;)“”"’{}]* +[({“"‘]*[\p{L}\d]|\}[,.:;)”]* \p{L}{2,}|\p{L}{2,} \{|^\p{Lu}\p{Ll}{2,}[.:…!?]?$/u;
/** Selectors, styles, paths, patterns, addresses, programs' options, tags without words. */
const NO_WORDS =
  /^(?:[.#[]|https?:|data:|\/|\.\/|--?[a-z]|M\d|@page|@media|image\/|application\/|text\/|video\/)|^[a-z-]+(?:: |=)[^ ]+;|[a-z-]+: [^;]+;|\bxmlns|^\^|\\[dspwb]|^[\w-]+\[|^<[^>]*>$|^use strict$|^\s*$/;

function add(text: string, wanted: RegExp, found: TextFound[]): void {
  if (wanted.test(text) && !NO_WORDS.test(text)) found.push({ text: text.trim(), said: false });
}
