// A picture to send: what is seen, on paper, with its name.
export function picture(v) {
  const [w, h] = v.size, band = 34;
  const k = Math.max(2, 1600 / w); // pixels of one on the screen
  const style = getComputedStyle(v.root);
  const tone = name => style.getPropertyValue(name).trim();
  const out = document.createElement('canvas');
  [out.width, out.height] = [w * k, (h + band) * k];
  const c = out.getContext('2d');
  c.scale(k, k);
  c.fillStyle = tone('--paper') || '#fff';
  c.fillRect(0, 0, w, h + band);
  v.stage.draw(v.eye, w, h, k / Math.min(devicePixelRatio || 1, 2));
  c.drawImage(v.canvas, 0, 0, w, h); // in the same turn, while the drawing is still there
  v.draw();
  c.strokeStyle = c.fillStyle = tone('--ink') || '#000';
  const {line, value} = v.measure.marks(w, h);
  c.font = '600 13px Table, sans-serif';
  if (line) {
    const [[x0, y0], [x1, y1]] = line;
    c.beginPath();
    c.moveTo(x0, y0);
    c.lineTo(x1, y1);
    for (const [x, y] of line) c.moveTo(x - 5, y + 5), c.lineTo(x + 5, y - 5);
    c.stroke();
    c.textAlign = 'center';
    c.fillText(value, (x0 + x1) / 2, (y0 + y1) / 2 - 7);
  }
  c.textAlign = 'left';
  c.fillText(v.model.name, 12, h + 20);
  out.toBlob(blob => {
    const a = document.createElement('a');
    a.href = URL.createObjectURL(blob);
    a.download = v.model.name.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '') + '.png';
    a.click();
    setTimeout(() => URL.revokeObjectURL(a.href), 10_000);
    v.say('The picture is saved as ' + a.download + '.');
  }, 'image/png');
}
