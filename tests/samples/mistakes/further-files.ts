import type { Mistake } from './mistake.ts';

const SPECS = 'specs/heron-36.yaml';
const SHARPEN = 'lessons/sharpen.mdx';
const SPARK = 'lessons/spark.mdx';
const spark = (name: string, text: string, gives: string, at: string): Mistake => ({
  name,
  file: SPARK,
  from: 'Most saws that will',
  to: `${text} Most saws that will`,
  gives,
  at,
});
const shop = (name: string, text: string, gives: string): Mistake => ({
  name,
  file: 'shop.yaml',
  from: 'language: en',
  to: text,
  gives,
  at: text,
});

/** Further mistakes in files, in the elements of lessons, and in YAML. */
export const FURTHER_FILE_MISTAKES: readonly Mistake[] = [
  {
    name: 'a lesson with a mark and the line ends of another system',
    file: SHARPEN,
    stored: 'crlf',
    gives: 'read rightly',
  },
  {
    name: 'captions with a mark and the line ends of another system',
    file: 'media/bench.vtt',
    stored: 'crlf',
    gives: 'read rightly',
  },
  { name: 'a class in UTF-16', file: 'classes/winter-sharpening.yaml', stored: 'utf16le', gives: 'file-encoding' },
  { name: 'a kit named otherwise', file: 'kit.yaml', renamed: 'kits.yaml', gives: 'file-ignored' },
  {
    name: 'a class named .yml',
    file: 'classes/winter-sharpening.yaml',
    renamed: 'classes/winter-sharpening.yml',
    gives: 'file-ignored',
  },
  { name: 'an empty spec table', file: SPECS, to: '', gives: 'file-empty' },
  { name: 'a lesson without a word', file: SPARK, to: '', gives: 'key-missing' },
  // YAML.
  shop('a star at the beginning of a text', 'contact: *workshop', 'yaml-syntax'),
  shop('a text that holds itself', 'contact: &me [*me]', 'yaml-syntax'),
  shop('a colon within a text', 'contact: ask: Ada', 'yaml-syntax'),
  shop('a tab before a key', '\tlanguage: en', 'yaml-syntax'),
  shop('a list where a text is wanted', 'language: [en, de]', 'value-wrong'),
  shop('a language in words', 'language: British English', 'value-wrong'),
  {
    name: 'three systems of units',
    file: 'shop.yaml',
    from: 'units: [metric, imperial]',
    to: 'units: [metric, imperial, us]',
    gives: 'value-wrong',
    at: 'units: [',
  },
  {
    name: 'a file outside of the content folder',
    file: 'recordings/engine.yaml',
    from: 'file: media/engine.mp4',
    to: 'file: ../engine.mp4',
    gives: 'value-wrong',
    at: '../engine.mp4',
  },
  {
    name: 'a time without quotes',
    file: 'recordings/bench.yaml',
    from: 'in: "0:16:00"',
    to: 'in: 960',
    gives: 'value-wrong',
    at: 'in: 960',
  },
  {
    name: 'a row of the table that is moved out of the list',
    file: SPECS,
    from: '  - id: coil-gap\n',
    to: '  id: coil-gap\n',
    gives: 'yaml-syntax',
  },
  // Elements.
  spark('a picture that is not there', '![The plug](plug.jpg)', 'picture-missing', 'plug.jpg'),
  spark(
    'a picture from elsewhere',
    '![The plug](https://elsewhere.example/plug.jpg)',
    'address-unsafe',
    'elsewhere.example',
  ),
  spark('a link that is code', '[Go](javascript:alert)', 'address-unsafe', 'javascript'),
  spark('a frame of another site', '<iframe src="https://elsewhere.example"></iframe>', 'element-unknown', '<iframe'),
  spark('an attribute that is code', '<Notice onclick="go()">Go</Notice>', 'code-in-lesson', 'onclick'),
  spark('an export in a lesson', '\n\nexport const gap = 5\n\n', 'code-in-lesson', 'export const'),
  spark('a spec of nothing', '<Spec />', 'attribute-wrong', '<Spec />'),
  spark(
    'two things used at once',
    '<Uses tool="feeler-gauges" part="plug-washer" />',
    'attribute-wrong',
    '<Uses tool="feeler-gauges" part=',
  ),
  spark('minutes of talk in words', '<Discuss minutes="five">Why?</Discuss>', 'attribute-wrong', 'minutes="five"'),
  spark('a number of things in words', '<Uses part="plug-washer" count="two" />', 'attribute-wrong', 'count="two"'),
  {
    name: 'an attribute misspelt',
    file: SPARK,
    from: 'until="0:18:00"',
    to: 'untill="0:18:00"',
    gives: 'attribute-wrong',
    at: 'untill',
  },
  {
    name: 'another row cited than the one that is shown',
    file: SPARK,
    from: '<Spec of="plug-gap" />',
    to: '<Spec of="coil-gap" />',
    gives: 'shown-value-wrong',
    severity: 'warning',
    at: '<Spec of="coil-gap" />',
  },
  {
    name: 'a key of the front matter misspelt',
    file: SPARK,
    from: 'summary:',
    to: 'sumary:',
    gives: 'key-unknown',
    at: 'sumary:',
  },
  {
    name: 'front matter that is not closed',
    file: SPARK,
    from: 'so that it seals.\n---\n',
    to: 'so that it seals.\n',
    gives: 'key-missing',
  },
];
