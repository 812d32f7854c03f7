import { z } from 'zod';
import {
  classSchema,
  kitSchema,
  lessonSchema,
  recordingSchema,
  shopSchema,
  specsSchema,
} from '../../../src/core/model/index.ts';
import { VOCABULARY } from '../../../src/core/read/index.ts';

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
    'Front matter; below it `##` opens a chapter, `###` a step, with the elements listed at the end of this page.',
  ],
  ['specs/<machine>.yaml', specsSchema, 'A machine and its spec table.'],
  ['kit.yaml', kitSchema, 'Tools with their ranges, parts, supplies, protective equipment.'],
  ['classes/<id>.yaml', classSchema, 'One event: its slot, and the blocks that may fill it.'],
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
    '## Elements of a lesson',
    '',
    '| element | meaning |',
    '| --- | --- |',
    ...VOCABULARY.map(
      ({ name, attributes, means }) =>
        `| \`<${[name, ...attributes.map((a) => (a.endsWith('?') ? `${a.slice(0, -1)}?` : a))].join(' ')}>\` | ${means} |`,
    ),
    '',
  ].join('\n');
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
