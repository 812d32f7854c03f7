import type { IncomingMessage, ServerResponse } from 'node:http';
import { jsonBody, readTarget, safely } from '../http/index.ts';
import { refusalFor, SAFE_HEADERS } from './guard.ts';
import type { Room } from './room.ts';
import type { Answer, Route } from './route.ts';
import { ROUTES } from './routes.ts';

// Own code on purpose: the small web framework answers odd byte ranges with the whole file and lets other origins post.

/** Where the cutting room lives, below the base of the site. */
export const CUTTING_ROOM = 'cutting-room/';

/** Answers requests below `/cutting-room/`; everything else goes on to whoever comes next. */
export function router(room: Room, routes: readonly Route[] = ROUTES) {
  const prefix = `${room.base}${CUTTING_ROOM}`;
  return safely(async (request: IncomingMessage, response: ServerResponse, next: () => void): Promise<void> => {
    const target = readTarget(request.url);
    if (!target) return send(response, { status: 400, json: { problem: 'the address is not understood' } });
    const { url, path } = target;
    if (!path.startsWith(prefix)) return next();
    const wanted = path.slice(prefix.length);
    response.setHeaders(SAFE_HEADERS);
    const found = routes.filter(
      (r) => r.path === wanted || (r.below && wanted.startsWith(r.path) && !isApi(wanted, r)),
    );
    const route = found.find((r) => r.method === request.method);
    const facts = {
      method: request.method ?? '',
      headers: request.headers,
      port: request.socket.localPort ?? 0,
      token: headerOf(request, 'x-liftside-token') ?? url.searchParams.get('token') ?? undefined,
    };
    const refusal = refusalFor(facts, route?.open ? undefined : room.token);
    if (refusal) return send(response, { status: refusal.status, json: { problem: refusal.problem } });
    if (!route)
      return send(response, {
        status: found.length > 0 ? 405 : 404,
        json: { problem: 'there is nothing at this address' },
      });
    try {
      const body = route.method === 'POST' && !route.raw ? await jsonBody(request) : { value: undefined };
      if ('problem' in body) {
        if (!request.complete) response.setHeader('connection', 'close');
        return send(response, { status: body.status, json: { problem: body.problem } });
      }
      const rest = wanted.slice(route.path.length);
      send(response, await route.handle({ url, rest, body: body.value, request, response }, room));
    } catch (error) {
      const words = error instanceof Error ? error.message : String(error);
      send(response, { status: 500, json: { problem: words, help: 'nothing was written; try again, or start anew' } });
    }
  });
}

/** What stands below `api/` is for routes that say so: the page takes every other address. */
function isApi(wanted: string, { path }: Route): boolean {
  return wanted.startsWith('api/') && !path.startsWith('api/');
}

function headerOf(request: IncomingMessage, name: string): string | undefined {
  const value = request.headers[name];
  return typeof value === 'string' ? value : undefined;
}

function send(response: ServerResponse, answer: Answer): void {
  if (!answer || response.headersSent) return;
  const html = 'html' in answer;
  response.statusCode = answer.status ?? 200;
  response.setHeader('content-type', html ? 'text/html; charset=utf-8' : 'application/json; charset=utf-8');
  response.end(html ? answer.html : JSON.stringify(answer.json));
}
