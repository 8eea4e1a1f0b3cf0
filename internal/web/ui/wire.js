// What travels between the page and the program, and nothing else.
import {state, meta} from './state.js';

export async function get(path) {
  const r = await fetch(path);
  return r.json();
}

// post sends an edit that is based on the revision shown. It never throws: what
// went wrong is an answer too.
export async function post(path, body, signal) {
  const base = body.base ?? state.rev;
  try {
    const r = await fetch(path, {
      method: 'POST', signal,
      headers: {'Content-Type': 'application/json', 'X-Rodwork-Token': meta('rodwork-token')},
      body: JSON.stringify({...body, base, client: state.client, shown: [...state.shown]}),
    });
    if (r.status === 200) return {ok: true, answer: await r.json()};
    if (r.status === 409 || r.status === 422 || r.status === 500) return {ok: false, ...(await r.json())};
    return {ok: false, why: await r.text()};
  } catch (e) {
    if (e.name === 'AbortError') return {ok: false, aborted: true};
    return {ok: false, why: 'Rodwork does not answer; is it still running?'};
  }
}

// watch hears of every revision that this page did not make itself.
export function watch(told) {
  const s = new EventSource('/events?client=' + state.client);
  s.addEventListener('revision', e => told(JSON.parse(e.data)));
  s.addEventListener('hello', e => {
    if (JSON.parse(e.data).rev !== state.rev) told({from: -1});
  });
}
