import { join } from 'node:path';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { XmlDocument, XmlValidateError, XsdValidator } from 'libxml2-wasm';
import { xmlRegisterFsInputProviders } from 'libxml2-wasm/lib/nodejs.mjs';
import { expect, test } from 'vitest';
import { type Course, cmi5Structure, scormManifest } from '../../../src/core/school/index.ts';

const COURSE: Course = {
  identifier: 'liftside.class.saturday',
  iri: 'https://millrace.example/classes/saturday/#course',
  title: 'Chain & sprockets <on a Saturday>',
  description: 'With "both" hands\u0007.',
  language: 'en-GB',
  lessons: ['chain', '2nd-brake'].map((id) => ({
    ...{ id, iri: `https://millrace.example/lessons/${id}/`, title: `Lesson ${id} ${'x'.repeat(250)}` },
    ...{ description: 'What it is about.', page: `pages/lessons/${id}/index.html` },
  })),
};
const FILES = ['READ ME FIRST.html', 'pages/lessons/chain/index.html', 'film/chain & more.mp4', 'source/Schräg.vtt'];

const SCHEMAS = join(import.meta.dirname, '../../reference/scorm12');
const WRAP = `<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema">${[
  ['http://www.imsproject.org/xsd/imscp_rootv1p1p2', 'imscp_rootv1p1p2'],
  ['http://www.adlnet.org/xsd/adlcp_rootv1p2', 'adlcp_rootv1p2'],
]
  .map(([space, file]) => `<xs:import namespace="${space}" schemaLocation="${file}.xsd"/>`)
  .join('')}</xs:schema>`;

/** What libxml2 finds against the schemas of IMS and ADL. */
function against(manifest: string): string {
  xmlRegisterFsInputProviders();
  const schema = XmlDocument.fromString(WRAP, { url: join(SCHEMAS, 'wrap.xsd') });
  const validator = XsdValidator.fromDoc(schema);
  const document = XmlDocument.fromString(manifest);
  try {
    validator.validate(document);
    return '';
  } catch (error) {
    if (error instanceof XmlValidateError) return error.message;
    throw error;
  } finally {
    document.dispose();
    validator.dispose();
    schema.dispose();
  }
}

test('imsmanifest.xml is valid by the schemas of IMS Content Packaging 1.1.2 and ADL SCORM 1.2', () => {
  const manifest = scormManifest(COURSE, FILES);
  expect(against(manifest)).toBe('');
  // The schemas are asked, not passed by.
  expect(against(manifest.replace('adlcp:scormtype="sco"', 'adlcp:scormtype="page"'))).toContain('scormtype');
  expect(against(manifest.replace('type="webcontent" adlcp:scormtype="asset"', ''))).not.toBe('');
  expect(against(manifest.replace('identifier="liftside.', 'identifier="0 '))).not.toBe('');
});

test('every identifier that is referred to is there once, and every file is named as an address', () => {
  const manifest = scormManifest(COURSE, FILES);
  const named = [...manifest.matchAll(/ identifier="([^"]+)"/g)].map(([, id]) => id);
  expect(new Set(named).size).toBe(named.length);
  // Content Packaging 1.1.2, 4.3: an item refers to a resource, a resource depends on one.
  for (const [, id] of manifest.matchAll(/ identifierref="([^"]+)"/g)) expect(named).toContain(id);
  for (const [, id] of manifest.matchAll(/ default="([^"]+)"/g)) expect(named).toContain(id);
  const hrefs = [...manifest.matchAll(/<file href="([^"]+)"/g)].map(([, href = '']) => decodeURIComponent(href));
  expect(new Set(hrefs)).toEqual(new Set([...FILES, 'pages/lessons/2nd-brake/index.html']));
});

test('cmi5.xml holds what the profile asks of a course structure, clause by clause', () => {
  const text = cmi5Structure(COURSE);
  expect(XMLValidator.validate(text)).toBe(true);
  const parser = new XMLParser({ ignoreAttributes: false, attributeNamePrefix: '', isArray: (name) => name === 'au' });
  const { courseStructure } = parser.parse(text);
  const { course, au } = courseStructure;
  // cmi5 Quartz (2016), 13.2: the namespace is that of its XSD.
  expect(courseStructure.xmlns).toBe('https://w3id.org/xapi/profiles/cmi5/v1/CourseStructure.xsd');
  // 13.1.1: id (an IRI), title and description are required, in this order.
  expect(Object.keys(course)).toEqual(['title', 'description', 'id']);
  expect(course.title.langstring).toMatchObject({ lang: 'en-GB', '#text': 'Chain & sprockets <on a Saturday>' });
  expect(course.description.langstring['#text']).toBe('With "both" hands.');
  // 13.1.4: id is unique in the structure; title, description and url are required; values of moveOn and launchMethod.
  const ids = [course.id, ...au.map(({ id }: { id: string }) => id)];
  expect(new Set(ids).size).toBe(3);
  for (const id of ids) expect(new URL(id).protocol).toBe('https:');
  for (const unit of au) {
    expect(Object.keys(unit)).toEqual(['title', 'description', 'url', 'id', 'moveOn', 'launchMethod']);
    expect(['Passed', 'Completed', 'CompletedAndPassed', 'CompletedOrPassed', 'NotApplicable']).toContain(unit.moveOn);
    expect(['AnyWindow', 'OwnWindow']).toContain(unit.launchMethod);
    // 14.1: in a zip file it may be relative to its root.
    expect(unit.url).toMatch(/^pages\/lessons\/[a-z0-9-]+\/index\.html$/);
  }
});
