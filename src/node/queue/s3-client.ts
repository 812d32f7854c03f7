import { hash } from 'node:crypto';
import { OutsideFailure } from '../failure.ts';
import { StoreAway } from './media-store.ts';

/** Where an object store is, and with what it lets one in. */
export interface S3Place {
  /** Address of the server, without the bucket. */
  readonly endpoint: string;
  readonly region: string;
  readonly bucket: string;
  readonly keys: { readonly id: string; readonly secret: string; readonly session?: string };
}

/** What it goes out by. */
export interface S3Line {
  readonly fetch: (request: Request) => Promise<Response>;
  /** ms since 1970 */
  readonly now: () => number;
}

const LINE: S3Line = { fetch: (request) => fetch(request), now: () => Date.now() };

interface Asked {
  readonly query?: Readonly<Record<string, string>>;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: Uint8Array;
}

/** Servers refuse what is signed with a clock that is off by a quarter of an hour; from here on theirs is taken, ms. */
const OFF = 60_000;

/** Asks an object store that speaks S3, with requests signed by AWS Signature Version 4 over a sum of what is sent. */
export class S3Client {
  readonly shown: string;
  readonly #place: S3Place;
  readonly #signer: import('aws4fetch').AwsClient;
  readonly #line: S3Line;
  /** How much later it is on the server's clock than here, ms. */
  #later = 0;

  private constructor(place: S3Place, signer: import('aws4fetch').AwsClient, shown: string, line: S3Line) {
    this.#place = place;
    this.#line = line;
    this.#signer = signer;
    this.shown = shown;
  }

  /** @throws OutsideFailure when the library that signs is not installed */
  static async of(place: S3Place, shown: string, line = LINE): Promise<S3Client> {
    const { AwsClient } = await import('aws4fetch').catch(() => {
      throw new OutsideFailure(
        'the library that speaks with object stores is not installed',
        'npm install --include=optional brings it; or name a folder in LIFTSIDE_STORE',
      );
    });
    const { id, secret, session } = place.keys;
    const signer = new AwsClient({
      ...{ accessKeyId: id, secretAccessKey: secret, service: 's3', region: place.region, retries: 0 },
      ...(session !== undefined && { sessionToken: session }),
    });
    return new S3Client(place, signer, shown, line);
  }

  /**
   * Asks for an object, or for the bucket where the key is empty.
   *
   * @returns the answer, or nothing where there is no such thing
   * @throws StoreAway when it may answer later; OutsideFailure when it refuses
   */
  async ask(method: string, key: string, asked: Asked = {}): Promise<Response | undefined> {
    let answer = await this.#send(method, key, asked);
    const later = Date.parse(answer.headers.get('date') ?? '') - this.#line.now();
    if (answer.status === 403 && Math.abs(later - this.#later) > OFF) {
      this.#later = later;
      answer = await this.#send(method, key, asked);
    }
    if (answer.ok) return answer;
    const told = await answer.text().catch(() => '');
    if (answer.status === 404) return undefined;
    const why = /<Code>(\w{1,60})<\/Code>/.exec(told)?.[1] ?? `status ${answer.status}`;
    if (answer.status >= 500 || answer.status === 429 || answer.status === 408) throw this.#away(why);
    throw new OutsideFailure(
      `the store ${this.shown} refuses ${method}: ${why}`,
      'look at AWS_ACCESS_KEY_ID, AWS_SECRET_ACCESS_KEY, AWS_REGION, and at what these keys may do in the bucket',
    );
  }

  /** What an answer holds. @throws StoreAway when it breaks off */
  async body(answer: Response): Promise<Uint8Array> {
    try {
      return new Uint8Array(await answer.arrayBuffer());
    } catch {
      throw this.#away('the answer broke off');
    }
  }

  async #send(method: string, key: string, { query = {}, headers = {}, body }: Asked): Promise<Response> {
    const { endpoint, bucket } = this.#place;
    const path = [bucket, ...key.split('/')].filter((part) => part !== '').map(encodeURIComponent);
    const url = new URL(`${endpoint.replace(/\/+$/, '')}/${path.join('/')}`);
    for (const [name, value] of Object.entries(query)) url.searchParams.set(name, value);
    const datetime = new Date(this.#line.now() + this.#later).toISOString().replace(/[-:]|\.\d+/g, '');
    const request = await this.#signer.sign(url, {
      method,
      headers: { ...headers, 'x-amz-content-sha256': sumOf(body ?? new Uint8Array()) },
      ...(body && { body: new Uint8Array(body) }),
      aws: { datetime },
    });
    try {
      return await this.#line.fetch(request);
    } catch (error) {
      const cause = error instanceof Error ? error.cause : undefined;
      throw this.#away(cause instanceof Error ? cause.message : String(error));
    }
  }

  #away(why: string): StoreAway {
    return new StoreAway(`the store ${this.shown} cannot be reached: ${why}`, 'look whether its server runs');
  }
}

/** SHA-256 in hexadecimal digits. */
export function sumOf(bytes: Uint8Array): string {
  return hash('sha256', bytes);
}
