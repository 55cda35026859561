// The only module that talks to the server. Every answer is {status, body, etag}; every refusal is a Refusal, and a
// server that can't be reached is Away: two different things, because only the second may be tried again unasked.
import { signal } from '@preact/signals';
import { language } from './state/language.js';

/** The token that proves a change was asked for by this page. Held in memory only. */
let forgeryToken = null;

/** true while the server can't be reached. */
export const away = signal(false);

/** Counts the returns of the server: what was asked in vain while it was away asks again. */
export const returned = signal(0);

/** Called when the server no longer knows who we are. */
const onEnded = new Set();

export class Refusal extends Error {
  constructor(status, problem) {
    super(problem.detail || problem.title || String(status));
    this.status = status;
    this.problem = problem;
  }
}

export class Away extends Error {}

export const whenSessionEnds = (listener) => onEnded.add(listener);

export const keepForgeryToken = (token) => {
  forgeryToken = token || null;
};

/** A key that makes pressing twice the same as pressing once. */
export const freshKey = () => crypto.randomUUID();

const headersFor = (method, { body, etag, key }) => ({
  Accept: 'application/json, application/problem+json',
  'Accept-Language': language.value,
  ...(body === undefined ? {} : { 'Content-Type': 'application/json' }),
  ...(method === 'GET' || !forgeryToken ? {} : { 'X-Forgery-Token': forgeryToken }),
  ...(etag ? { 'If-Match': etag } : {}),
  ...(key ? { 'Idempotency-Key': key } : {}),
});

const reach = async (path, request) => {
  try {
    const response = await fetch(path, request);
    if (response.status >= 502 && response.status <= 504) throw new Away();
    if (away.value) returned.value += 1;
    away.value = false;
    return response;
  } catch (error) {
    if (error.name === 'AbortError') throw error;
    away.value = true;
    throw new Away();
  }
};

const readBody = async (response) => {
  const text = await response.text();
  if (!text) return null;
  try {
    return JSON.parse(text);
  } catch {
    return { title: response.statusText, detail: '' };
  }
};

/** Asks the server. `options`: body, etag, key (idempotency), signal (to give up). */
export const ask = async (method, path, options = {}) => {
  const { body, signal: giveUp, quiet } = options;
  const response = await reach(path, {
    method,
    headers: headersFor(method, options),
    body: body === undefined ? undefined : JSON.stringify(body),
    credentials: 'same-origin',
    signal: giveUp,
  });
  const answer = { status: response.status, etag: response.headers.get('ETag'), body: await readBody(response) };
  if (response.ok) return answer;
  if (response.status === 401 && !quiet) onEnded.forEach((listener) => listener());
  throw new Refusal(response.status, answer.body || {});
};

const answerOf = (sending) => {
  try {
    return JSON.parse(sending.responseText);
  } catch {
    return { title: sending.statusText, detail: '' };
  }
};

/** Sends a file as it is. `onPart(share)`: how much of it has gone, 0 to 1, which no fetch tells. */
export const upload = (path, file, { key, onPart }) =>
  new Promise((done, fail) => {
    const sending = new XMLHttpRequest();
    const lost = () => {
      away.value = true;
      fail(new Away());
    };
    const arrived = () => {
      if (sending.status >= 502 && sending.status <= 504) return lost();
      away.value = false;
      if (sending.status >= 200 && sending.status < 300) return done(answerOf(sending));
      if (sending.status === 401) onEnded.forEach((listener) => listener());
      return fail(new Refusal(sending.status, answerOf(sending)));
    };
    sending.open('POST', path);
    Object.entries(headersFor('POST', { key })).forEach(([name, value]) => sending.setRequestHeader(name, value));
    sending.setRequestHeader('Content-Type', file.type || 'application/octet-stream');
    sending.upload.onprogress = ({ loaded, total }) => onPart(total ? loaded / total : 0);
    Object.assign(sending, { onload: arrived, onerror: lost, ontimeout: lost });
    sending.send(file);
  });

/** Fetches a file and hands it to the browser to be kept under that name. Asked for with POST: that it was is recorded. */
export const download = async (path, name) => {
  const response = await reach(path, { method: 'POST', headers: headersFor('POST', {}), credentials: 'same-origin' });
  if (!response.ok) throw new Refusal(response.status, (await readBody(response)) || {});
  const address = URL.createObjectURL(await response.blob());
  Object.assign(document.createElement('a'), { href: address, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
};

export const get = (path, options) => ask('GET', path, options);
export const post = (path, body, options) => ask('POST', path, { ...options, body });
export const put = (path, body, options) => ask('PUT', path, { ...options, body });
export const patch = (path, body, options) => ask('PATCH', path, { ...options, body });
export const remove = (path, options) => ask('DELETE', path, options);
