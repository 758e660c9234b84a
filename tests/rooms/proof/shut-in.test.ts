/** Rules that a stranger wrote reach nothing: no disk, no network, no other program, no process, and no end of time. */

import { existsSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { judgeShutIn } from '../../../server/record/shut-in.ts';
import { temporaryFolder } from '../../support/record.ts';

/** Everything that a script could try, each with what it got; a promise that fails in the outer world is the usual way out. */
const hostile = (file: string, port: number): string => `
var rules = { judge: function () {
  var got = [];
  var reach = function (name, work) { try { var found = work(); if (found !== undefined && found !== null) got.push(name + ': ' + typeof found); } catch (error) { outer.push(error); } };
  var outer = [this, rules];
  reach('process', function () { return process; });
  reach('require', function () { return require; });
  reach('fetch', function () { return fetch; });
  reach('module', function () { return module; });
  reach('setTimeout', function () { return setTimeout; });
  reach('WebAssembly', function () { return new WebAssembly.Module(new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0])); });
  reach('eval', function () { return eval('1'); });
  try { import('node:fs').then(function (fs) { got.push('import'); fs.writeFileSync(${JSON.stringify(file)}, 'x'); }, function (error) { escape(error); }); } catch (error) { outer.push(error); }
  var escape = function (error) {
    try {
      var world = error.constructor.constructor('return process')();
      world.stdout.write(JSON.stringify({ verdict: 'escaped' }));
      world.getBuiltinModule('fs').writeFileSync(${JSON.stringify(file)}, 'x');
    } catch (failure) { try { error.constructor.constructor.constructor('return this')(); } catch (again) {} }
  };
  var deep = function () { deep(); };
  try { deep(); } catch (error) { outer.push(error); }
  outer.forEach(function (each) {
    reach('function of the outer world', function () { return each.constructor.constructor('return process')(); });
    reach('function of its own', function () { return each.constructor.constructor('return this')().process; });
  });
  try { Error.prepareStackTrace = function (error, sites) { sites.forEach(function (site) { var self = site.getThis(); if (self && self.process) got.push('process by the stack'); var called = site.getFunction(); if (called) reach('caller', function () { return called.constructor('return process')(); }); }); return ''; }; new Error('x').stack; } catch (error) {}
  return JSON.stringify({ verdict: got.length === 0 ? 'nothing' : got.join('; '), port: ${port} });
} };`;

test('a script that tries everything gets nothing, and leaves nothing behind', async () => {
  let called = 0;
  const server = createServer(() => (called += 1));
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as { port: number };
  const file = join(temporaryFolder(), 'left');
  expect(await judgeShutIn(hostile(file, port), '[]')).toEqual({ verdict: 'nothing' });
  server.close();
  expect([called, existsSync(file)]).toEqual([0, false]);
});

/** As if the inner wall had fallen: what is left in that process reaches neither files nor programs nor the network. */
test('and the process around it is closed by itself', async () => {
  const { execFileSync } = await import('node:child_process');
  const flag = process.allowedNodeEnvironmentFlags.has('--permission') ? '--permission' : '--experimental-permission';
  const tries =
    "try{require('fs').readFileSync('/etc/hostname');console.log('file')}catch{}try{require('child_process').execFileSync('true');console.log('program')}catch{}try{Function('return 1')();console.log('text')}catch{}";
  const said = execFileSync(
    process.execPath,
    [flag, '--disallow-code-generation-from-strings', '--no-warnings', '--eval', tries],
    { encoding: 'utf8' },
  );
  expect(said).toBe('');
});

test('what never ends is ended, and what answers nothing or nonsense is told', async () => {
  expect(await judgeShutIn('var rules = { judge() { for (;;); } };', '[]', 1500)).toEqual({
    failed: 'it took too long',
  });
  expect(await judgeShutIn('var rules = { judge: () => 5 };', '[]')).toEqual({ failed: 'its answer is no text' });
  expect(await judgeShutIn('var rules = { judge: () => "nonsense" };', '[]')).toEqual({
    failed: 'the rules ended without an answer',
  });
  expect(await judgeShutIn('var rules = { judge() { throw new Error("not this record"); } };', '[]')).toEqual({
    failed: 'not this record',
  });
  expect(
    await judgeShutIn('var rules = { judge: (text) => JSON.stringify({ verdict: text + " seen" }) };', '[1]'),
  ).toEqual({ verdict: '[1] seen' });
});
