import type { Lesson, Shop } from '../model/index.ts';
import { escapeHtml, lessonPage, type StepOnPage, specsShown } from '../pages/index.ts';
import { SAFETY_WORDS } from '../programme/index.ts';
import { printClockTime } from '../time/index.ts';
import { correctionHtml, htmlOf, valueHtml } from './text.ts';
import { documentOf, type Ways, xhtmlOf } from './xhtml.ts';

/** A document of a book, and what the table of contents says of it. */
export interface BookDocument {
  /** Without its folder. */
  readonly name: string;
  readonly title: string;
  readonly text: string;
  /** Places in it, by id. */
  readonly places: readonly { readonly id: string; readonly title: string }[];
}

export interface LessonInBook {
  readonly lesson: Lesson;
  /** Of a step, its picture from the film: address as seen from a document. */
  readonly stepPicture: (step: string) => string | undefined;
  /** Of a file of the content, its address as seen from a document; nothing where a book cannot show it. */
  readonly contentPicture: (file: string) => string | undefined;
  /** Address of the published site. */
  readonly published?: string;
}

/** A lesson: what comes before it, its chapters with their steps, and all values that it cites. */
export function lessonDocuments(
  shop: Shop,
  { lesson, stepPicture, contentPicture, published }: LessonInBook,
): BookDocument[] {
  const language = shop.info.language ?? 'en';
  // Pages make addresses of their own files; here such an address is a mark to be looked up.
  const page = lessonPage(shop, lesson, 'none', (path) => `/${path}`);
  const { title, summary, machine, years, before, words } = page;
  const nameOf = (index: number) => `${lesson.id}-${index + 1}.xhtml`;
  const places = new Map(
    page.chapters.flatMap(({ id, steps }, index) =>
      [id, ...steps.map((step) => step.id)].map((each) => [each, `${nameOf(index)}#${each}`]),
    ),
  );
  const ways: Ways = {
    link(address) {
      if (/^(?:https?|mailto):/.test(address)) return address;
      if (address.startsWith('#')) return places.get(address.slice(1));
      if (published === undefined) return undefined;
      const site = published.replace(/\/*$/, '');
      return address.startsWith('/') ? `${site}${address}` : `${site}/lessons/${lesson.id}/${address}`;
    },
    picture: (address) => contentPicture(decodeURI(address.replace(/^\/footage\//, ''))),
  };
  const made = (name: string, heading: string, html: string, inside: BookDocument['places'] = []): BookDocument => ({
    name,
    title: heading,
    text: documentOf(`${heading} · ${title}`, language, xhtmlOf(html, ways)),
    places: inside,
  });
  const list = (items: readonly string[]) =>
    items.length === 0 ? '' : `<ul>${items.map((item) => `<li>${item}</li>`).join('')}</ul>`;

  const hazards = before.hazards.map(
    ({ word, text, of, step }) =>
      `<strong>${word.toUpperCase()}</strong> ${step ? `<a href="#${step.id}">${escapeHtml(step.title)}</a>: ` : of ? `${escapeHtml(of)}: ` : ''}${escapeHtml(text)}`,
  );
  const layOut = before.groups
    .filter(({ things }) => things.length > 0)
    .map(({ name, things }) => {
      const lines = things.map(({ count, title: thing, size, newEachTime }) =>
        escapeHtml(
          [`${count > 1 ? `${count} × ` : ''}${thing}`, size, newEachTime ? 'new each time' : undefined]
            .filter(Boolean)
            .join(', '),
        ),
      );
      return `<h3>${escapeHtml(name)}</h3>${list(lines)}`;
    });
  const first = made(
    `${lesson.id}.xhtml`,
    title,
    [
      `<section><h1>${escapeHtml(title)}</h1>`,
      summary ? `<p>${escapeHtml(summary)}</p>` : '',
      machine ? `<p>${escapeHtml(machine.title)}${years ? `, ${escapeHtml(years)}` : ''}</p>` : '',
      `<div class="signal"><p class="word">Before you start</p>${SAFETY_WORDS.map((line) => `<p>${escapeHtml(line)}</p>`).join('')}</div>`,
      hazards.length > 0 ? `<h2>What can hurt</h2>${list(hazards)}` : '',
      layOut.length > 0 ? `<h2>Lay out</h2>${layOut.join('')}` : '',
      htmlOf(page.opening),
      '</section>',
    ].join(''),
  );

  const stepHtml = (step: StepOnPage) => {
    const picture = stepPicture(step.id);
    const film =
      step.at && step.at.end > step.at.start
        ? `<p class="on-film">On film from ${printClockTime(step.at.start).replace(/\.\d+$/, '')}</p>`
        : '';
    return [
      `<section id="${step.id}"><h2>${step.number} ${escapeHtml(step.title)}</h2>`,
      ...step.corrections.map(correctionHtml),
      picture === undefined
        ? ''
        : `<figure><img src="${picture}" alt="From the film: ${escapeHtml(step.title)}"></figure>`,
      film,
      ...step.settings.map(({ text }) => `<p>${escapeHtml(text)}</p>`),
      htmlOf(step.text),
      '</section>',
    ].join('');
  };
  const stepWays: Ways = { ...ways, picture: (address) => (address.startsWith('/') ? ways.picture(address) : address) };
  const chapters = page.chapters.map((chapter, index): BookDocument => {
    const html = [
      `<section id="${chapter.id}"><h1>${chapter.number} ${escapeHtml(chapter.title)}</h1>`,
      ...chapter.corrections.map(correctionHtml),
      htmlOf(chapter.text),
      ...chapter.steps.map(stepHtml),
      '</section>',
    ].join('');
    return {
      name: nameOf(index),
      title: `${chapter.number} ${chapter.title}`,
      text: documentOf(`${chapter.title} · ${title}`, language, xhtmlOf(html, stepWays)),
      places: chapter.steps.map(({ id, number, title: step }) => ({ id, title: `${number} ${step}` })),
    };
  });

  const machineOf = shop.machines.find(({ id }) => id === lesson.machine);
  const cited = new Map<string, string>();
  if (machineOf)
    for (const passage of lesson.chapters.flatMap((chapter) => [chapter, ...chapter.steps]))
      for (const { title: name, values } of specsShown(shop, lesson, machineOf, passage))
        for (const shown of values)
          cited.set(
            `${shown.path} ${shown.whose ?? ''}`,
            `<tr><th scope="row">${escapeHtml(name)}</th><td>${valueHtml(shown)}</td></tr>`,
          );
  const rest = [
    cited.size > 0 ? `<h2>Values</h2><table><tbody>${[...cited.values()].join('')}</tbody></table>` : '',
    words.length > 0
      ? `<h2>Words of the trade</h2><dl>${words.map(({ say, meaning }) => `<dt>${escapeHtml(say)}</dt><dd>${escapeHtml(meaning)}</dd>`).join('')}</dl>`
      : '',
    htmlOf(page.notes),
  ].join('');
  const last =
    rest === ''
      ? []
      : [made(`${lesson.id}-values.xhtml`, 'Values and words', `<section><h1>Values and words</h1>${rest}</section>`)];
  return [first, ...chapters, ...last];
}
