import type { Root, RootContent } from 'mdast';
import remarkMdx from 'remark-mdx';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { expect, test } from 'vitest';
import { liftBlocks } from '../../../src/core/read/lift-blocks.ts';

const parser = unified().use(remarkParse).use(remarkMdx);

function lifted(text: string): Root {
  const tree = parser.parse(text);
  liftBlocks(tree);
  return tree;
}

/** The blocks of a text, each as `p:` or `Name:` and its words. */
function blocks(text: string): string[] {
  const words = (node: RootContent): string =>
    'value' in node
      ? node.value
      : 'children' in node
        ? node.children.map((child) => words(child as RootContent)).join('')
        : '';
  return lifted(text).children.map(
    (node) => `${node.type === 'mdxJsxFlowElement' ? node.name : node.type[0]}: ${words(node)}`,
  );
}

test.each([
  ['Turn it. <Warning>Hot.</Warning> Then wait.', ['p: Turn it. ', 'Warning: Hot.', 'p:  Then wait.']],
  ['<KeyPoint why="x">Wheels.</KeyPoint>\nOn the way back', ['KeyPoint: Wheels.', 'p: \nOn the way back']],
  ['It takes <Spec of="nut" />.', ['p: It takes .']],
  ['<Cue at="0:01:00" />', ['Cue: ']],
  ['Only words', ['p: Only words']],
])('%j stands as %j', (text, expected) => {
  expect(blocks(text)).toEqual(expected);
});

test('in a list too', () => {
  const [list] = lifted('- first <Notice>Dry.</Notice>').children;
  const item = list?.type === 'list' ? list.children[0] : undefined;
  expect(item?.children.map(({ type }) => type)).toEqual(['paragraph', 'mdxJsxFlowElement']);
});

test('one paragraph alone in a box stands in it without a paragraph, several keep theirs', () => {
  const inside = (text: string) => {
    const [box] = lifted(text).children;
    return box?.type === 'mdxJsxFlowElement' ? box.children.map(({ type }) => type) : [];
  };
  expect(inside('<Notice>\nDry.\n</Notice>')).toEqual(['text']);
  expect(inside('<Notice>\nDry.\n\nCold.\n</Notice>')).toEqual(['paragraph', 'paragraph']);
});
