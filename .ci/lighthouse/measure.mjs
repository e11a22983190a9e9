// Serves a built site, packed as it was built, loads the page as a phone and
// as a desk would, and tells how it does by Lighthouse, with what keeps a mark
// from 100. node measure.mjs FOLDER
import { existsSync, readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join } from 'node:path';
import lighthouse, { desktopConfig } from 'lighthouse';
import * as chromeLauncher from 'chrome-launcher';

const [folder] = process.argv.slice(2);
const types = { '.html': 'text/html; charset=utf-8', '.css': 'text/css', '.js': 'text/javascript', '.mjs': 'text/javascript', '.wasm': 'application/wasm', '.json': 'application/json', '.webmanifest': 'application/manifest+json', '.svg': 'image/svg+xml', '.png': 'image/png' };
const server = createServer((request, answer) => {
  const name = new URL(request.url, 'http://localhost').pathname.replace(/\/$/, '/index.html');
  const file = join(folder, name), packed = existsSync(file + '.br');
  if (!existsSync(file)) return answer.writeHead(404).end();
  answer.writeHead(200, { 'Content-Type': types[extname(name)] || 'application/octet-stream', 'Cache-Control': 'no-cache', ...(packed && { 'Content-Encoding': 'br' }) });
  answer.end(readFileSync(packed ? file + '.br' : file));
});
await new Promise((ready) => server.listen(0, '127.0.0.1', ready));
const address = 'http://127.0.0.1:' + server.address().port + '/';
const browser = await chromeLauncher.launch({
  chromePath: process.env.CHROMIUM || undefined,
  chromeFlags: ['--headless=new', '--no-sandbox', '--disable-gpu', '--disable-quic', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
try {
  for (const [as, config] of [['phone', undefined], ['desk', desktopConfig]]) {
    const { lhr } = await lighthouse(address, { port: browser.port, onlyCategories: ['performance', 'accessibility', 'best-practices'], logLevel: 'error' }, config);
    console.log(as + ': ' + Object.values(lhr.categories).map((c) => c.title.toLowerCase() + ' ' + Math.round(c.score * 100)).join(', '));
    for (const c of Object.values(lhr.categories)) {
      for (const { id, weight } of c.auditRefs) {
        const audit = lhr.audits[id];
        if (weight > 0 && audit.score !== null && audit.score < 0.995) {
          console.log('  ' + id + ' ' + Math.round(audit.score * 100) + ' (weight ' + weight + '): ' + (audit.displayValue || audit.title));
          for (const item of audit.details?.items?.slice(0, 5) || []) console.log('    ' + JSON.stringify(item).slice(0, 300));
        }
      }
    }
  }
} finally {
  await browser.kill();
  server.close();
}
