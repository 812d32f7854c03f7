import { z } from 'zod';
import {
  actualSchema,
  classSchema,
  collectionSchema,
  collectionsSchema,
  kitSchema,
  lessonSchema,
  PLAIN_HTML,
  questionsSchema,
  recordingSchema,
  shopSchema,
  specsSchema,
  VOCABULARY,
  type VocabularyRow,
  wordsSchema,
} from '../../../src/core/model/index.ts';

interface JsonSchema {
  readonly type?: string;
  readonly description?: string;
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: JsonSchema | boolean;
  readonly items?: JsonSchema;
  readonly prefixItems?: readonly JsonSchema[];
  readonly anyOf?: readonly JsonSchema[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly $defs?: Readonly<Record<string, JsonSchema>>;
}

const FILES = [
  ['shop.yaml', shopSchema, 'The shop itself.'],
  [
    'recordings/<id>.yaml',
    recordingSchema,
    'One continuous take as far as time goes: its camera files, what stays of it, who is in it.',
  ],
  [
    'lessons/<id>.mdx',
    lessonSchema,
    'Front matter; below it `##` opens a chapter, `###` a step, with what is listed at the end of this page.',
  ],
  ['specs/<machine>.yaml', specsSchema, 'A machine and its spec table.'],
  ['kit.yaml', kitSchema, 'Tools with their ranges, parts, supplies, protective equipment.'],
  [
    'words.yaml',
    wordsSchema,
    'What people call things: search finds them by any of their names. `words.es.yaml` beside it is for the pages in Spanish.',
  ],
  ['classes/<id>.yaml', classSchema, 'One event: its slot, and the blocks that may fill it.'],
  ['classes/<id>.actual.yaml', actualSchema, 'What a class really took; written by hand, or on the day of the class.'],
  [
    'collections.yaml',
    collectionsSchema,
    'What the shop takes from other shops, and what it gives: [collections](collections.md).',
  ],
  [
    'collection.yaml',
    collectionSchema,
    'What a published collection is, at its top; written by `liftside collections publish`.',
  ],
  ['questions/<class>.yaml', questionsSchema, 'Questions set aside in class; written on the day.'],
] as const;

/** The page that lists every content file with every key, made from the schemas the reader holds them against. */
export function contentPage(): string {
  return [
    '# Content files',
    '',
    'Every file of a content folder with every key it may have, made by `npm run docs` from the schemas. A key in **bold**',
    'has to be there. Times read `h:mm:ss(.fraction)` from the start of the recording, or timecode.',
    ...FILES.flatMap(([file, schema, about]) => [
      '',
      `## ${file}`,
      '',
      about,
      '',
      '| key | takes | meaning |',
      '| --- | --- | --- |',
      ...rows(jsonOf(schema), ''),
    ]),
    '',
    ...lessonText(),
  ].join('\n');
}

/** What the text of a lesson may hold, made from the tables the reader refuses everything else by. */
function lessonText(): string[] {
  return [
    '## Text of a lesson',
    '',
    'Lessons are data, not programs. A lesson is Markdown with the elements below, and nothing in it is ever run: not on',
    'the machine that checks or builds it, not in the browser that shows it. So the folder of somebody else can be opened,',
    'checked and built. `check` refuses at its place, as an error, whatever is not listed here:',
    '',
    '- `import`, `export`, `{…}`, `<script>`, attributes such as `onclick` (`code-in-lesson`). A note to yourself is',
    '  written `{/* … */}` and shown nowhere.',
    '- any other element (`element-unknown`) or attribute (`attribute-wrong`); every attribute is written `name="value"`.',
    '- links that do not lead to a page, a letter or a telephone: `https:`, `http:`, `mailto:`, `tel:`, `#` and the path of',
    '  a page are fine (`address-unsafe`).',
    '- pictures from elsewhere (`address-unsafe`). A picture is a file of the content folder, named from the folder of the',
    '  lesson: `![The clip, closed end forward](../media/clip.jpg)`; .jpg, .png, .webp, .avif or .gif.',
    '',
    'What a lesson says is still for you to judge: values, steps and links of somebody else can be wrong.',
    '',
    '### Markdown',
    '',
    '`##` opens a chapter, `###` a step. Paragraphs, `*so*`, `**so**`, `~~so~~`, lists, lists of boxes, tables, quotes, code,',
    'lines, links, pictures and footnotes are as usual.',
    '',
    '### Elements',
    '',
    '| element | takes | meaning |',
    '| --- | --- | --- |',
    ...VOCABULARY.map(elementRow),
    '',
    '### Plain HTML',
    '',
    'For what Markdown has no sign for. Each may say its language: `lang="de"`.',
    '',
    '| element | attributes | meaning |',
    '| --- | --- | --- |',
    ...PLAIN_HTML.map(({ name, attributes, means }) => `| \`<${name}>\` | ${attributes.join(', ')} | ${means} |`),
    '',
  ];
}

function elementRow({ name, attributes, needs, oneOf, words, means }: VocabularyRow): string {
  const takes = Object.entries(attributes).map(
    ([attribute, kind]) => `${needs.includes(attribute) ? `**${attribute}**` : attribute}: ${kind}`,
  );
  const all = [...(oneOf ? [`one of ${oneOf.join(', ')}`] : takes), ...(oneOf ? takes.slice(oneOf.length) : [])];
  return `| \`<${name}${words ? `>…</${name}>` : ' />'}\` | ${all.join('; ')} | ${means} |`;
}

/** The schema as JSON Schema; one that has a name is kept under it. */
function jsonOf(schema: z.ZodType): JsonSchema {
  const json = z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }) as JsonSchema;
  return Object.values(json.$defs ?? {})[0] ?? json;
}

function rows(schema: JsonSchema, prefix: string): string[] {
  return Object.entries(schema.properties ?? {}).flatMap(([key, inner]) => {
    const name = `${prefix}${key}`;
    const shown = schema.required?.includes(key) ? `**${name}**` : name;
    return [`| ${shown} | ${takes(inner)} | ${inner.description ?? ''} |`, ...below(inner, name)];
  });
}

function below(schema: JsonSchema, name: string): string[] {
  if (schema.properties) return rows(schema, `${name}.`);
  if (schema.items?.properties) return rows(schema.items, `${name}[].`);
  if (typeof schema.additionalProperties === 'object') return rows(schema.additionalProperties, `${name}.<id>.`);
  return [];
}

function takes(schema: JsonSchema): string {
  if (schema.const !== undefined) return `\`${String(schema.const)}\``;
  if (schema.enum) return schema.enum.map((value) => `\`${String(value)}\``).join(', ');
  if (schema.anyOf) return [...new Set(schema.anyOf.map(takes))].join(' or ');
  if (schema.prefixItems) return `list of ${schema.prefixItems.length}: ${takes(schema.prefixItems[0] ?? {})}`;
  if (schema.items) return `list of ${schema.items.properties ? 'groups' : takes(schema.items)}`;
  if (schema.properties) return 'group';
  if (typeof schema.additionalProperties === 'object') return 'groups by id';
  return (
    { string: 'text', integer: 'whole number', number: 'number', boolean: 'true or false' }[schema.type ?? ''] ?? 'text'
  );
}
