import type { IncomingMessage, ServerResponse } from 'node:http';
import type { Room } from './room.ts';

/** A request that was let in. */
export interface Ask {
  readonly url: URL;
  /** What stands behind the route's path, decoded; empty where nothing does. */
  readonly rest: string;
  /** The JSON it carried; nothing for GET. */
  readonly body: unknown;
  readonly request: IncomingMessage;
  readonly response: ServerResponse;
}

/** What a route answers; nothing where it wrote the answer itself. */
export type Answer =
  | { readonly status?: number; readonly json: unknown }
  | { readonly status?: number; readonly html: string }
  | undefined;

/** One address of the local server. */
export interface Route {
  readonly method: 'GET' | 'POST';
  /** Below `/cutting-room/`; with `below`, everything under it too. */
  readonly path: string;
  readonly below?: boolean;
  /** True where the body is not JSON: the route reads the request itself. */
  readonly raw?: boolean;
  /** True for what a person opens by its address: no token can be there yet. */
  readonly open?: boolean;
  handle(ask: Ask, room: Room): Promise<Answer>;
}

/** A route, checked against its type. */
export function route(definition: Route): Route {
  return definition;
}

/** A refusal in words, with what to do. */
export function refusal(status: number, problem: string, help: string, more: object = {}): Answer {
  return { status, json: { problem, help, ...more } };
}
