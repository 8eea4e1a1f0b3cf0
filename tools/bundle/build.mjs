// Makes one script of the model's modules and of three.js, and writes it where
// the program takes it in. With --check it writes nothing, and fails where what
// is there is not what it would write.
import {build} from 'esbuild';
import {readFile, writeFile} from 'node:fs/promises';
import {dirname, join} from 'node:path';
import {fileURLToPath} from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const model = join(here, '../../internal/book/html/model');
const target = join(model, 'model.bundle');

const licence = await readFile(join(here, 'node_modules/three/LICENSE'), 'utf8');

const made = await build({
  entryPoints: [join(model, 'index.js')],
  nodePaths: [join(here, 'node_modules')],
  bundle: true, minify: true, write: false, format: 'esm', target: 'es2022', charset: 'utf8', legalComments: 'none',
  banner: {js: `/* With three.js 0.187.0, which comes under this licence:\n\n${licence.trim()}\n*/`}, // it travels with every book
});
const bytes = made.outputFiles[0].contents;
if (!process.argv.includes('--check')) {
  await writeFile(target, bytes);
  console.log(`${bytes.length} bytes`);
} else if (!Buffer.from(bytes).equals(await readFile(target))) {
  console.error('the bundle is not current: run "node tools/bundle/build.mjs" and commit what it writes');
  process.exit(1);
} else {
  console.log('the bundle is current');
}
