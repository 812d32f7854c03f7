import type { ServerResponse } from 'node:http';
import { SAFE_HEADERS } from './guard.ts';

/** Answers a device with a JSON value. */
export function answerJson(response: ServerResponse, status: number, value: unknown): void {
  response.setHeaders(SAFE_HEADERS);
  response.writeHead(status, { 'content-type': 'application/json; charset=utf-8' });
  response.end(JSON.stringify(value));
}
