// Tells what the glTF standard's own validator says of files: prints a JSON
// list with one report for each file that is named.
import { readFile } from "node:fs/promises";
import validator from "gltf-validator";

const out = [];
for (const name of process.argv.slice(2)) {
  const report = await validator.validateBytes(new Uint8Array(await readFile(name)), { maxIssues: 0 });
  out.push({ file: name, ...report.issues, info: report.info });
}
console.log(JSON.stringify(out));
