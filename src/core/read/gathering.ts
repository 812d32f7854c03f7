import type { Nodes } from 'mdast';
import {
  type Cite,
  type Cue,
  type Diagnostic,
  type Discussion,
  elementNamed,
  type KeyPoint,
  type KitGroup,
  type Place,
  type Prose,
  SIGNAL_WORDS,
  type SignalBox,
  type Use,
} from '../model/index.ts';
import { isTimecode, must, parseMoment, printClockTime } from '../time/index.ts';
import { isComplete } from './allow-list.ts';
import { tell } from './faults.ts';
import { attributeOf, attributeText, isJsx, type JsxElement } from './jsx.ts';
import { placeholderLeft } from './placeholders.ts';
import { plainText } from './plain-text.ts';
import type { Points } from './points.ts';
import type { LessonLabelling } from './read-recording.ts';

const GROUPS: readonly KitGroup[] = ['tool', 'part', 'supply', 'protective'];

/** Walks the content of one chapter or step and keeps what it holds. */
export class Gathering {
  cue: Cue | undefined;
  #cueUnread = false;
  readonly uses: Use[] = [];
  readonly cites: Cite[] = [];
  readonly keyPoints: KeyPoint[] = [];
  readonly signals: SignalBox[] = [];
  readonly discussions: Discussion[] = [];
  readonly prose: Prose[] = [];
  readonly labels: Prose[] = [];
  readonly #points: Points;
  readonly #labelling: LessonLabelling;
  readonly #diagnostics: Diagnostic[];

  constructor(points: Points, labelling: LessonLabelling, diagnostics: Diagnostic[]) {
    this.#points = points;
    this.#labelling = labelling;
    this.#diagnostics = diagnostics;
  }

  /** What was kept, without an empty cue. */
  result() {
    const { uses, cites, keyPoints, signals, discussions, prose, labels } = this;
    return {
      uses,
      cites,
      keyPoints,
      signals,
      discussions,
      prose,
      labels,
      ...(this.cue ? { cue: this.cue } : this.#cueUnread ? { cueUnread: true as const } : {}),
    };
  }

  walk(nodes: readonly Nodes[]): this {
    for (const node of nodes) {
      if (node.type === 'text') {
        this.prose.push({ text: node.value, place: this.#place(node) });
        this.#isLeft(node.value, this.#place(node));
      }
      if (node.type === 'inlineCode') this.#label(node.value, node, '`'.length);
      if (node.type === 'image' && node.alt) this.#label(node.alt, node, '!['.length);
      if ((node.type === 'image' || node.type === 'link') && node.title) this.#label(node.title, node);
      if (isJsx(node)) this.#element(node);
      if ('children' in node) this.walk(node.children);
    }
    return this;
  }

  #place(node: { position?: Nodes['position'] }): Place {
    return this.#points.place(node.position?.start.offset ?? 0, node.position?.end.offset ?? 0);
  }

  /** True, and told, where a starting file's placeholder was left. */
  #isLeft(text: string, place: Place): boolean {
    const left = placeholderLeft(text, place);
    this.#diagnostics.push(...left);
    return left.length > 0;
  }

  #label(text: string, node: Nodes, skipped = 0): void {
    const [start, end] = [node.position?.start.offset ?? 0, node.position?.end.offset ?? 0];
    const place = this.#points.place(start + skipped, end);
    this.labels.push({ text, place });
    this.#isLeft(text, place);
  }

  #element(element: JsxElement): void {
    const name = element.name ?? '';
    const row = elementNamed(name);
    if (name === 'Cue') this.#cueUnread = true;
    if (!row || !isComplete(element, row)) return;
    const place = this.#place(element);
    const text = (attribute: string) => attributeText(attributeOf(element, attribute));
    const where = (attribute: string) => this.#place(attributeOf(element, attribute) ?? element);
    switch (row.name) {
      case 'Cue':
        this.#cue(element, place);
        break;
      case 'Spec':
        this.cites.push({ spec: text('of') ?? '', measured: text('measured') !== undefined, place: where('of') });
        break;
      case 'Uses': {
        const group = GROUPS.find((g) => text(g) !== undefined);
        const count = this.#number(element, 'count', 1);
        if (group) this.uses.push({ group, id: text(group) ?? '', count, place: where(group) });
        break;
      }
      case 'KeyPoint': {
        const why = text('why');
        if (why) this.#isLeft(why, where('why'));
        this.keyPoints.push({ text: plainText(element), place, ...(why ? { why } : {}) });
        break;
      }
      case 'Discuss':
        this.discussions.push({ minutes: this.#number(element, 'minutes', 0), text: plainText(element), place });
        break;
      case 'Danger':
      case 'Warning':
      case 'Caution':
      case 'Notice': {
        const word = must(
          SIGNAL_WORDS.find((each) => each === name.toLowerCase()),
          'a signal word',
        );
        this.signals.push({ word, text: plainText(element), place });
        break;
      }
      default:
        row.name satisfies never;
    }
  }

  #cue(element: JsxElement, place: Place): void {
    const at = this.#moment(element, 'at');
    const until = this.#moment(element, 'until');
    if (at === undefined) return;
    const atPlace = this.#place(attributeOf(element, 'at') ?? element);
    if (this.cue) {
      this.#tell(
        'attribute-wrong',
        place,
        'a second <Cue> under one heading',
        'a chapter or step has one cue; give the other one a heading of its own',
      );
      return;
    }
    if (until !== undefined && until <= at) {
      const where = this.#place(attributeOf(element, 'until') ?? element);
      this.#tell(
        'range-reversed',
        where,
        `the cue ends at ${printClockTime(until)}, not after its start ${printClockTime(at)}`,
        'until is the first moment that no longer belongs to the step',
      );
      this.cue = { at, place, atPlace };
      return;
    }
    this.cue = { at, place, atPlace, ...(until === undefined ? {} : { until }) };
  }

  #moment(element: JsxElement, name: string) {
    const attribute = attributeOf(element, name);
    const written = attributeText(attribute);
    if (!attribute || written === undefined || this.#isLeft(written, this.#place(attribute))) return undefined;
    const moment = parseMoment(written, this.#labelling, name === 'until' ? 'end' : 'start');
    if (moment.ok) return moment.value;
    if (isTimecode(written) && this.#labelling.rateTold) return undefined;
    this.#tell('time-wrong', this.#place(attribute), moment.problem, moment.help);
    return undefined;
  }

  #number(element: JsxElement, name: string, otherwise: number): number {
    const attribute = attributeOf(element, name);
    const written = attributeText(attribute);
    if (!attribute || written === undefined) return otherwise;
    const value = Number(written);
    if (written.trim() !== '' && Number.isFinite(value) && value > 0) return value;
    this.#tell(
      'attribute-wrong',
      this.#place(attribute),
      `${name}="${written}" is not a number above 0`,
      `write ${name}="2" or the like`,
    );
    return otherwise;
  }

  #tell(rule: Parameters<typeof tell>[0], place: Place, message: string, help: string): void {
    this.#diagnostics.push(tell(rule, place, message, help));
  }
}
