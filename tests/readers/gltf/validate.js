// Reads glTF files with the Khronos validator and fails on any error or warning.
// Usage: node validate.js FOLDER_WITH_NODE_MODULES FILE...
'use strict';

const fs = require('fs');
const path = require('path');

const [folder, ...files] = process.argv.slice(2);
const validator = require(path.join(path.resolve(folder), 'node_modules', 'gltf-validator'));

async function faultsOf(file) {
  const report = await validator.validateBytes(new Uint8Array(fs.readFileSync(file)), { uri: path.basename(file) });
  const { numErrors, numWarnings, numInfos, messages } = report.issues;
  console.log(`${file}: ${numErrors} errors, ${numWarnings} warnings, ${numInfos} notes, ` +
    `${report.info.totalTriangleCount} triangles, ${report.info.drawCallCount} draw calls`);
  for (const message of messages.slice(0, 20)) console.log(`  ${message.code} ${message.pointer}: ${message.message}`);
  return numErrors + numWarnings;
}

(async () => {
  let faults = 0;
  for (const file of files) faults += await faultsOf(file);
  process.exit(files.length > 0 && faults === 0 ? 0 : 1);
})();
