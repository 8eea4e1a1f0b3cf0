// Lengths in words, in the unit of the book.
function fraction(inches) {
  const n = Math.round(inches * 64);
  let whole = Math.floor(n / 64), top = n % 64, bottom = 64;
  while (top && top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  if (!top) return `${whole}`;
  return (whole ? whole + ' ' : '') + `${top}/${bottom}`;
}

// told prints a length of so many millimetres: to a tenth, or in inches to the
// nearest 1/64 with the millimetres beside it.
export function told(mm, units) {
  const plain = mm.toFixed(1).replace(/\.0$/, '');
  return units === 'in' ? `${mm < 0 ? '−' : ''}${fraction(Math.abs(mm) / 25.4)} in (${plain} mm)` : `${plain} mm`;
}

// unit is what numbers are typed in: its name, its size in mm, and its step.
export const unit = units => (units === 'in' ? {name: 'in', mm: 25.4, step: 0.0625} : {name: 'mm', mm: 1, step: 1});
