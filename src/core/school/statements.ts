import type { ReadingTaken } from './session.ts';

// cmi5 Specification Profile for xAPI, Quartz 1st edition (2016); section numbers stand beside what follows from them.

/** What a school's system hands to a lesson that it launches: 8.1. */
export interface Launch {
  readonly endpoint: string;
  readonly fetch: string;
  readonly actor: object;
  readonly registration: string;
  readonly activityId: string;
}

/** 10.0, LMS.LaunchData, as far as it is used. */
export interface LaunchData {
  readonly contextTemplate?: {
    readonly contextActivities?: Readonly<Record<string, readonly object[]>>;
    readonly extensions?: object;
    readonly [more: string]: unknown;
  };
  readonly launchMode?: string;
  readonly returnURL?: string;
}

/** @returns nothing where the address is not that of a launch */
export function readLaunch(query: string): Launch | undefined {
  const given = new Map(
    query
      .replace(/^\?/, '')
      .split('&')
      .map((pair) => {
        const [name = '', value = ''] = pair.split('=');
        return [name, decoded(value)] as const;
      }),
  );
  const [endpoint, fetch, registration, activityId] = ['endpoint', 'fetch', 'registration', 'activityId'].map((name) =>
    given.get(name),
  );
  if (!endpoint || !fetch || !registration || !activityId) return undefined;
  try {
    const actor: unknown = JSON.parse(given.get('actor') ?? '');
    if (typeof actor !== 'object' || actor === null) return undefined;
    return { endpoint: endpoint.replace(/\/?$/, '/'), fetch, actor, registration, activityId };
  } catch {
    return undefined;
  }
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text.replaceAll('+', ' '));
  } catch {
    return '';
  }
}

/** 9.3; `progressed` and `answered` are of the ADL vocabulary, and go in cmi5-allowed statements (7.1.3). */
const VERBS = {
  initialized: 'http://adlnet.gov/expapi/verbs/initialized',
  completed: 'http://adlnet.gov/expapi/verbs/completed',
  terminated: 'http://adlnet.gov/expapi/verbs/terminated',
  progressed: 'http://adlnet.gov/expapi/verbs/progressed',
  answered: 'http://adlnet.gov/expapi/verbs/answered',
} as const;

/** 9.6.2.1 and 9.6.2.2. */
const CMI5 = { id: 'https://w3id.org/xapi/cmi5/context/categories/cmi5' };
const MOVE_ON = { id: 'https://w3id.org/xapi/cmi5/context/categories/moveon' };
/** 9.5.5.1: whole per cent; not in a statement that says completed. */
const PROGRESS = 'https://w3id.org/xapi/cmi5/result/extensions/progress';

export interface Moment {
  /** UUID: 9.1. */
  readonly id: string;
  readonly now: Date;
  /** Milliseconds since the sitting began. */
  readonly lasted: number;
}

export type Told =
  | { readonly verb: 'initialized' | 'completed' | 'terminated' }
  | { readonly verb: 'progressed'; readonly share: number }
  | { readonly verb: 'answered'; readonly reading: ReadingTaken; readonly language: string };

/** A statement as the profile wants it. */
export function statement(launch: Launch, { contextTemplate = {} }: LaunchData, told: Told, moment: Moment): object {
  const { contextActivities = {}, ...template } = contextTemplate;
  const defined = told.verb === 'initialized' || told.verb === 'completed' || told.verb === 'terminated';
  const category = [
    ...(contextActivities.category ?? []),
    ...(defined ? [CMI5] : []),
    ...(told.verb === 'completed' ? [MOVE_ON] : []),
  ];
  return {
    id: moment.id,
    actor: launch.actor,
    verb: { id: VERBS[told.verb], display: { en: told.verb } },
    object: objectOf(launch, told),
    ...resultOf(told, moment),
    context: {
      ...template,
      registration: launch.registration,
      contextActivities: {
        ...contextActivities,
        ...(category.length > 0 ? { category } : {}),
        ...(told.verb === 'answered' ? { parent: [{ objectType: 'Activity', id: launch.activityId }] } : {}),
      },
    },
    // 9.7: in UTC.
    timestamp: moment.now.toISOString(),
  };
}

function objectOf({ activityId }: Launch, told: Told): object {
  if (told.verb !== 'answered') return { objectType: 'Activity', id: activityId };
  const { name, title, unit, limits } = told.reading;
  // xAPI 1.0.3, Data, 2.4.4.1, interaction activities.
  return {
    objectType: 'Activity',
    id: `${activityId}#${encodeURIComponent(name)}`,
    definition: {
      type: 'http://adlnet.gov/expapi/activities/cmi.interaction',
      interactionType: 'numeric',
      name: { [told.language]: `${title}, ${unit}` },
      description: { [told.language]: limits },
    },
  };
}

function resultOf(told: Told, { lasted }: Moment): { result?: object } {
  switch (told.verb) {
    case 'initialized':
      return {};
    case 'completed':
      return { result: { completion: true, duration: isoDuration(lasted) } };
    case 'terminated':
      return { result: { duration: isoDuration(lasted) } };
    case 'progressed':
      return { result: { extensions: { [PROGRESS]: Math.floor(told.share * 100) } } };
    case 'answered': {
      const { value, right } = told.reading;
      return { result: { response: String(value), ...(right === undefined ? {} : { success: right }) } };
    }
    default:
      return told satisfies never;
  }
}

/** ISO 8601, to hundredths of a second (xAPI 1.0.3, Data, 4.6). */
export function isoDuration(milliseconds: number): string {
  return `PT${(Math.round(milliseconds / 10) / 100).toFixed(2)}S`;
}
