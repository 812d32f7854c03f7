import type { IncomingMessage, ServerResponse } from 'node:http';

type Next = (error?: unknown) => void;

/**
 * Turns a handler that may fail later into one that tells whoever comes next. A promise refused with nobody waiting
 * for it would end the whole process, and with it what everybody else is doing.
 */
export function safely(
  handle: (request: IncomingMessage, response: ServerResponse, next: Next) => void | Promise<void>,
) {
  return (request: IncomingMessage, response: ServerResponse, next: Next): void => {
    void (async () => handle(request, response, next))().catch(next);
  };
}
