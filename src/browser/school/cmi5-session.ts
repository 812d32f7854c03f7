import {
  type Launch,
  type LaunchData,
  ReadingsTold,
  type SchoolSession,
  type SchoolState,
  statement,
  type Told,
} from '../../core/school/index.ts';

/** Under which a lesson keeps its own state. */
const STATE_ID = 'liftside.progress';
const NOT_THERE = 'The system of your school did not answer. What you write down stays in this browser.';

interface Around {
  readonly now: () => Date;
  readonly newId: () => string;
  /** Of the page, a BCP 47 tag. */
  readonly language: string;
  readonly request: typeof fetch;
}

/**
 * A sitting in a system that speaks cmi5 (Quartz, 7 and 8). What is sent goes one after the other, and what did not
 * arrive goes again with what comes next. Only the end waits for nothing, since the page may be going: all that is left
 * goes in its order in one request.
 */
export class Cmi5Session implements SchoolSession {
  readonly kept: string;
  readonly records: boolean;
  readonly back?: string;
  trouble = '';
  readonly #launch: Launch;
  readonly #data: LaunchData;
  readonly #authorization: string;
  readonly #around: Around;
  readonly #began: number;
  readonly #readings = new ReadingsTold();
  #complete = false;
  #text = '';
  #share = 0;
  #statements: object[] = [];
  #state: string | undefined;
  #sending = false;

  private constructor(launch: Launch, data: LaunchData, authorization: string, kept: string, around: Around) {
    this.#launch = launch;
    this.#data = data;
    this.#authorization = authorization;
    this.#around = around;
    this.#began = around.now().getTime();
    // What is kept says first whether it was complete: completed is told once for a registration (9.3.3).
    this.#complete = kept.startsWith('complete ');
    this.kept = kept.replace(/^\w+ /, '');
    // 10.2.2: in Browse and Review nothing is told between the first and the last.
    this.records = (data.launchMode ?? 'Normal') === 'Normal';
    if (data.returnURL !== undefined && /^https?:/i.test(data.returnURL)) this.back = data.returnURL;
  }

  /** @throws when the system does not answer as it has to */
  static async open(launch: Launch, around: Around): Promise<Cmi5Session> {
    const { request } = around;
    // 8.2: asked for once in a sitting.
    const answer: unknown = await (await request(launch.fetch, { method: 'POST' })).json();
    const token = (answer as Readonly<Record<string, unknown>> | null)?.['auth-token'];
    if (typeof token !== 'string') throw new Error('no authorization was given');
    const authorization = `Basic ${token}`;
    const data = await read(stateAddress(launch, 'LMS.LaunchData'), authorization, request);
    if (!data?.ok) throw new Error('the launch data are missing');
    const agent = encodeURIComponent(JSON.stringify(launch.actor));
    // 11.0: what the learner prefers has to be asked for; there may be none.
    await read(
      `${launch.endpoint}agents/profile?profileId=cmi5LearnerPreferences&agent=${agent}`,
      authorization,
      request,
    );
    const state = await read(stateAddress(launch, STATE_ID), authorization, request);
    const kept = state?.ok ? await state.text() : '';
    const session = new Cmi5Session(launch, (await data.json()) as LaunchData, authorization, kept, around);
    session.#tell({ verb: 'initialized' });
    await session.#sendAll();
    return session;
  }

  keep(state: SchoolState): void {
    if (!this.records) return;
    this.#take(state);
    if (!this.#sending) void this.#sendAll();
  }

  async end(state: SchoolState): Promise<void> {
    if (this.records) this.#take(state);
    this.#tell({ verb: 'terminated' });
    await this.#sendAll();
  }

  /** What is new of a state waits to be sent. */
  #take(state: SchoolState): void {
    const { language } = this.#around;
    for (const reading of this.#readings.fresh(state.readings)) this.#tell({ verb: 'answered', reading, language });
    if (state.complete && !this.#complete) {
      this.#complete = true;
      this.#tell({ verb: 'completed' });
    } else if (Math.floor(state.share * 100) > Math.floor(this.#share * 100) && !state.complete)
      this.#tell({ verb: 'progressed', share: state.share });
    this.#share = state.share;
    const text = `${this.#complete ? 'complete' : 'begun'} ${state.text}`;
    if (text !== this.#text) this.#state = text;
    this.#text = text;
  }

  #tell(told: Told): void {
    const { now, newId } = this.#around;
    const moment = { id: newId(), now: now(), lasted: now().getTime() - this.#began };
    this.#statements.push(statement(this.#launch, this.#data, told, moment));
  }

  /** Sends what waits at once; what comes meanwhile goes after it. */
  async #sendAll(): Promise<void> {
    this.#sending = true;
    const [statements, state] = [this.#statements, this.#state];
    this.#statements = [];
    this.#state = undefined;
    const address = `${this.#launch.endpoint}statements`;
    const [told, kept] = await Promise.all([
      statements.length === 0 || this.#send('POST', address, 'application/json', JSON.stringify(statements)),
      state === undefined || this.#send('PUT', stateAddress(this.#launch, STATE_ID), 'text/plain', state),
    ]);
    this.#sending = false;
    this.trouble = told && kept ? '' : NOT_THERE;
    if (!told) this.#statements = [...statements, ...this.#statements];
    if (!kept) this.#state ??= state;
    else if (told && (this.#statements.length > 0 || this.#state !== undefined)) await this.#sendAll();
  }

  async #send(method: 'PUT' | 'POST', address: string, type: string, body: string): Promise<boolean> {
    // What is under way when the page goes is brought to its end by the browser.
    const options = { method, body, keepalive: true, headers: headers(this.#authorization, type) };
    const answer = await this.#around.request(address, options).catch(() => undefined);
    return answer?.ok === true;
  }
}

async function read(address: string, authorization: string, request: typeof fetch): Promise<Response | undefined> {
  return request(address, { headers: headers(authorization) }).catch(() => undefined);
}

function headers(authorization: string, type?: string): Record<string, string> {
  return {
    authorization,
    'x-experience-api-version': '1.0.3',
    ...(type === undefined ? {} : { 'content-type': type }),
  };
}

function stateAddress({ endpoint, activityId, actor, registration }: Launch, stateId: string): string {
  const query = new URLSearchParams({ stateId, activityId, agent: JSON.stringify(actor), registration });
  return `${endpoint}activities/state?${query}`;
}
