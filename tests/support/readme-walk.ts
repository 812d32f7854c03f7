/** What the reader of a walk does, one after the other. */
export type Deed =
  | { readonly does: 'runs'; readonly line: string }
  | { readonly does: 'writes'; readonly file: string; readonly text: string }
  | { readonly does: 'presses'; readonly key: string }
  | { readonly does: 'types'; readonly words: string };

export interface Part {
  readonly title: string;
  readonly deeds: readonly Deed[];
}

/** Keys as they are printed on a keyboard, by the names that browsers give them. */
const PRINTED: Readonly<Record<string, string>> = { '↑': 'ArrowUp', '↓': 'ArrowDown', Esc: 'Escape', Home: 'Home' };

/**
 * The deeds of a walk written in Markdown, part by part (`###` with a number). A block of `sh` is run line by line; any other block is
 * the whole text of the file that was named last before it, in code; in a row of a table keys (`<kbd>`) are pressed and
 * code is typed. A key in a sentence is only told of.
 *
 * @param text the section of the walk, from its `##` heading on
 * @throws Error where a block stands without a file before it
 */
export function readWalk(text: string): readonly Part[] {
  return text
    .split(/^### (?=\d)/m)
    .slice(1)
    .map((part) => {
      const [title = ''] = part.split('\n', 1);
      return { title, deeds: deedsOf(part.slice(title.length)) };
    });
}

function deedsOf(part: string): Deed[] {
  const deeds: Deed[] = [];
  let named: string | undefined;
  for (const [, language, block, line = ''] of part.matchAll(/^```(\w+)\n([\s\S]*?)^```$|^(.+)$/gm)) {
    if (block !== undefined && language === 'sh')
      for (const each of block.trim().split('\n')) deeds.push({ does: 'runs', line: each });
    else if (block !== undefined) {
      if (named === undefined) throw new Error(`no file is named before this block:\n${block}`);
      deeds.push({ does: 'writes', file: named, text: block });
      named = undefined;
    } else if (line.startsWith('| ')) deeds.push(...rowDeeds(line));
    else named = [...line.matchAll(/`(\.\.\/[^`\s]+\.(?:yaml|mdx|txt))`/g)].at(-1)?.[1] ?? named;
  }
  return deeds;
}

function rowDeeds(row: string): Deed[] {
  return [...row.matchAll(/<kbd>(.+?)<\/kbd>|`([^`]+)`/g)].map(([, key, words = '']) =>
    key === undefined ? { does: 'types', words } : { does: 'presses', key: PRINTED[key] ?? key.toLowerCase() },
  );
}

/** The section of a page under a heading, up to the next one of its rank; what stands in a block is no heading. */
export function section(page: string, heading: string): string {
  const from = page.indexOf(`\n## ${heading}\n`);
  if (from < 0) throw new Error(`no section "${heading}"`);
  const lines: string[] = [];
  let inBlock = false;
  for (const line of page.slice(from + 1).split('\n')) {
    if (line.startsWith('```')) inBlock = !inBlock;
    if (!inBlock && line.startsWith('## ') && lines.length > 0) break;
    lines.push(line);
  }
  return lines.join('\n');
}
