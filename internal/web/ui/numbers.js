// Numbers as they are written in a file, and their steps.

// numberOf reads the number of an amount that is written in a unit ('' where it
// is bare): '1460', '48 1/2 in', '-80'; null of any other text.
export function numberOf(text, suffix = '') {
  const m = /^\s*([-+−]?)\s*(?:(\d+)\s+(\d+)\/(\d+)|(\d+)\/(\d+)|(\d*\.?\d+))\s*([^\d+*/().-]*)$/.exec(text);
  if (!m || m[8].trim() !== suffix) return null;
  const sign = m[1] === '-' || m[1] === '−' ? -1 : 1;
  if (m[2]) return sign * (Number(m[2]) + Number(m[3]) / Number(m[4]));
  if (m[5]) return sign * Number(m[5]) / Number(m[6]);
  return sign * Number(m[7]);
}

export function stepOf(v, n) {
  if (v.whole) return 1;
  if (v.inch) return 1 / 16;
  return Math.abs(n) < 10 ? 0.1 : 1;
}

// stepped is a value some steps on, within its bounds, as text and number.
export function stepped(v, n, steps) {
  const step = stepOf(v, v.number);
  let to = n + steps * step;
  if (v.whole) to = n + Math.sign(steps) * Math.max(1, Math.round(Math.abs(steps)));
  if (v.min != null) to = Math.max(v.min, to);
  if (v.max != null) to = Math.min(v.max, to);
  to = v.inch ? Math.round(to * 64) / 64 : Number(to.toFixed(4));
  const num = v.inch ? mixed(to) : String(Number(to.toFixed(4)));
  const bare = v.suffix ? ' ' + v.suffix : '';
  return [num + (v.suffix === '"' ? '"' : bare), to];
}

// mixed writes a number in whole inches and a fraction.
function mixed(n) {
  const sign = n < 0 ? '-' : '';
  let parts = Math.round(Math.abs(n) * 64), of = 64;
  const whole = Math.floor(parts / 64);
  parts %= 64;
  if (parts === 0) return sign + whole;
  while (parts % 2 === 0) [parts, of] = [parts / 2, of / 2];
  return `${sign}${whole ? whole + ' ' : ''}${parts}/${of}`;
}
