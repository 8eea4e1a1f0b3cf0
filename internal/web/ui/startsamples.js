// The examples, each with its front, to begin with a copy of.
import {send, tell} from './startwire.js';

export async function samples() {
  const list = document.getElementById('samples');
  let all = [];
  try {
    all = await (await fetch('/start/samples')).json();
  } catch {
    tell('The examples could not be had.');
  }
  for (const s of all) {
    const li = document.createElement('li');
    const pic = document.createElement('div');
    pic.className = 'pic';
    pic.innerHTML = s.figure;
    const h = document.createElement('h3');
    h.textContent = s.name;
    const p = document.createElement('p');
    p.textContent = s.about;
    const b = document.createElement('button');
    b.type = 'button';
    b.className = 'do';
    b.textContent = 'Begin with a copy';
    b.setAttribute('aria-label', `Begin with a copy of the ${s.name}`);
    b.addEventListener('click', () => copy(s, b));
    li.append(pic, h, p, b);
    list.append(li);
  }
  list.removeAttribute('aria-busy');
}

async function copy(s, b) {
  b.disabled = true;
  const r = await send('/start/copy', {sample: s.key, name: document.getElementById('name')?.value.trim() ?? ''});
  b.disabled = false;
  if (r.ok) location.assign(r.answer.address);
  else tell(r.why);
}
