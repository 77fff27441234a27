// The host on this machine: what it sends, and in which form.

import assert from "node:assert/strict";
import { mkdtemp, mkdir, rm, writeFile } from "node:fs/promises";
import { get } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { brotliCompressSync, brotliDecompressSync, gunzipSync, gzipSync } from "node:zlib";
import { Host } from "./host.js";

const RELEASE = "0123456789ab";
const WORDS = "export const words = 'as they are';";

let site;
let host;

before(async () => {
  site = await mkdtemp(join(tmpdir(), "site-"));
  await mkdir(join(site, RELEASE));
  await writeFile(join(site, "index.html"), "<title>Tautmark</title>");
  const file = join(site, RELEASE, "start.js");
  await writeFile(file, WORDS);
  await writeFile(`${file}.gz`, gzipSync(WORDS));
  await writeFile(`${file}.br`, brotliCompressSync(WORDS));
  const gzipAlone = join(site, "sw.js");
  await writeFile(gzipAlone, WORDS);
  await writeFile(`${gzipAlone}.gz`, gzipSync(WORDS));
  host = await Host.start(site);
});

after(async () => {
  await host.stop();
  await rm(site, { recursive: true });
});

/** The status, headers and bytes as they came. */
function asked(path, accepts) {
  const headers = accepts === undefined ? {} : { "Accept-Encoding": accepts };
  return new Promise((resolve, reject) => {
    get(new URL(path, host.address), { headers }, (answer) => {
      const pieces = [];
      answer.on("data", (piece) => pieces.push(piece));
      answer.on("end", () => resolve({
        status: answer.statusCode, headers: answer.headers, bytes: Buffer.concat(pieces),
      }));
    }).on("error", reject);
  });
}

test("brotli goes to whoever takes it, gzip to others, and plain files to the rest", async () => {
  const start = `${RELEASE}/start.js`;
  const small = await asked(start, "gzip, deflate, br, zstd");
  assert.equal(small.headers["content-encoding"], "br");
  assert.equal(brotliDecompressSync(small.bytes).toString(), WORDS);
  const older = await asked(start, "gzip, deflate");
  assert.equal(older.headers["content-encoding"], "gzip");
  assert.equal(gunzipSync(older.bytes).toString(), WORDS);
  for (const accepts of [undefined, "identity", "br;q=0, gzip;q=0"]) {
    const plain = await asked(start, accepts);
    assert.equal(plain.headers["content-encoding"], undefined, accepts);
    assert.equal(plain.bytes.toString(), WORDS);
  }
});

test("a file that lies there in one form only is sent in that, or plain", async () => {
  const worker = await asked("sw.js", "gzip, br");
  assert.equal(worker.headers["content-encoding"], "gzip");
  assert.equal(gunzipSync(worker.bytes).toString(), WORDS);
  const page = await asked("", "gzip, br");
  assert.equal(page.headers["content-encoding"], undefined);
  assert.equal(page.bytes.toString(), "<title>Tautmark</title>");
});

test("what is kept on the way is kept for one form of it", async () => {
  for (const path of ["", `${RELEASE}/start.js`]) {
    assert.equal((await asked(path, "br")).headers.vary, "Accept-Encoding");
  }
  const release = await asked(`${RELEASE}/start.js`, "br");
  assert.match(release.headers["cache-control"], /immutable/);
  assert.equal((await asked("", "br")).headers["cache-control"], "no-cache");
});

test("what is not there, or lies outside, is not sent", async () => {
  assert.equal((await asked("nothing.js", "br")).status, 404);
  assert.equal((await asked("%2e%2e/serve.test.js", "br")).status, 404);
});
