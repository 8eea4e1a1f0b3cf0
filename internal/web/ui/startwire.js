// What travels between the start page and the program.
const token = document.querySelector('meta[name="rodwork-token"]').content;

// send posts what the page says, or a picture. It never throws: what went wrong
// is an answer too.
export async function send(path, body, kind = 'application/json') {
  try {
    const r = await fetch(path, {method: 'POST', headers: {'Content-Type': kind, 'X-Rodwork-Token': token},
      body: kind === 'application/json' ? JSON.stringify(body) : body});
    if (r.ok) return {ok: true, answer: await r.json()};
    if (r.headers.get('Content-Type')?.startsWith('application/json')) return {ok: false, ...(await r.json())};
    return {ok: false, why: await r.text()};
  } catch {
    return {ok: false, why: 'Rodwork does not answer; is it still running?'};
  }
}

const passing = document.getElementById('telling');
// tell says something in passing; screen readers read it out.
export function tell(text) { passing.textContent = text ?? ''; }
