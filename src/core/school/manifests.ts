import { encodePath } from '../model/index.ts';
import { escapeXml } from '../pages/index.ts';

/** A lesson or class as a school's system lists it. */
export interface Course {
  /** Letters, figures, dots and hyphens; begins with a letter. */
  readonly identifier: string;
  /** IRI that is nobody else's. */
  readonly iri: string;
  readonly title: string;
  readonly description: string;
  /** BCP 47 tag. */
  readonly language: string;
  readonly lessons: readonly {
    readonly id: string;
    readonly iri: string;
    readonly title: string;
    readonly description: string;
    /** Path of its page in the package. */
    readonly page: string;
  }[];
}

/** IMS Content Packaging 1.1.2: a title has 200 signs at most. */
const MOST_TITLE = 200;

/**
 * `imsmanifest.xml` of SCORM 1.2 (ADL, Content Aggregation Model, 2.3): an item for each lesson, and every file.
 *
 * @param files paths in the package
 */
export function scormManifest({ identifier, title, lessons }: Course, files: readonly string[]): string {
  const items = lessons.map(
    ({ id, title }) => `      <item identifier="item.${id}" identifierref="lesson.${id}">
        <title>${escapeXml(title.slice(0, MOST_TITLE))}</title>
      </item>`,
  );
  const file = (path: string) => `      <file href="${escapeXml(encodePath(path))}"/>`;
  const pages = new Set(lessons.map(({ page }) => page));
  const shared = files.filter((path) => !pages.has(path)).map(file);
  const resources = lessons.map(
    ({
      id,
      page,
    }) => `    <resource identifier="lesson.${id}" type="webcontent" adlcp:scormtype="sco" href="${escapeXml(page)}">
${file(page)}
      <dependency identifierref="shared"/>
    </resource>`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?>
<manifest identifier="${escapeXml(identifier)}" version="1.0"
  xmlns="http://www.imsproject.org/xsd/imscp_rootv1p1p2"
  xmlns:adlcp="http://www.adlnet.org/xsd/adlcp_rootv1p2"
  xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"
  xsi:schemaLocation="http://www.imsproject.org/xsd/imscp_rootv1p1p2 imscp_rootv1p1p2.xsd http://www.adlnet.org/xsd/adlcp_rootv1p2 adlcp_rootv1p2.xsd">
  <metadata>
    <schema>ADL SCORM</schema>
    <schemaversion>1.2</schemaversion>
  </metadata>
  <organizations default="lessons">
    <organization identifier="lessons">
      <title>${escapeXml(title.slice(0, MOST_TITLE))}</title>
${items.join('\n')}
    </organization>
  </organizations>
  <resources>
${resources.join('\n')}
    <resource identifier="shared" type="webcontent" adlcp:scormtype="asset">
${shared.join('\n')}
    </resource>
  </resources>
</manifest>
`;
}

/** `cmi5.xml`: cmi5 Quartz, 13.1 and 14.1. A lesson is satisfied when it is completed (13.1.4, moveOn). */
export function cmi5Structure({ iri, title, description, language, lessons }: Course): string {
  const words = (name: string, text: string) =>
    `    <${name}><langstring lang="${escapeXml(language)}">${escapeXml(text)}</langstring></${name}>`;
  const units = lessons.map(
    (lesson) => `  <au id="${escapeXml(lesson.iri)}" moveOn="Completed" launchMethod="AnyWindow">
${words('title', lesson.title)}
${words('description', lesson.description)}
    <url>${escapeXml(lesson.page)}</url>
  </au>`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?>
<courseStructure xmlns="https://w3id.org/xapi/profiles/cmi5/v1/CourseStructure.xsd">
  <course id="${escapeXml(iri)}">
${words('title', title)}
${words('description', description)}
  </course>
${units.join('\n')}
</courseStructure>
`;
}
