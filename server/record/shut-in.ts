/**
 * Runs rules that a stranger may have written, shut in. Three walls, each of which has to fall before anything is reached:
 * a process of its own that Node's permission model keeps from files, other programs and threads; within it a context
 * that holds the language and nothing else, and no compiling of text, so that nothing found by a trick can make a function
 * outside of it; and no way to the network left in that process, since Node does not forbid it everywhere. It has a time
 * and a memory, gets a text and gives a text.
 */
import { spawn } from 'node:child_process';
import { limits } from '../measure/limits.ts';

export type ShutIn = { readonly verdict: string } | { readonly failed: string };

const permission = process.allowedNodeEnvironmentFlags.has('--permission')
  ? '--permission'
  : '--experimental-permission';

export const judgeShutIn = (
  script: string,
  entries: string,
  wait: number = limits.shutInMilliseconds,
): Promise<ShutIn> =>
  new Promise((resolve) => {
    const memory = `--max-old-space-size=${limits.shutInMegabytes}`;
    const args = [permission, '--disallow-code-generation-from-strings', '--no-warnings', memory, '--eval', inside];
    const child = spawn(process.execPath, args, { env: {}, cwd: '/', stdio: ['pipe', 'pipe', 'ignore'] });
    let said = '';
    let over: string | undefined;
    const end = (why: string): void => {
      over ??= why;
      child.kill('SIGKILL');
    };
    const timer = setTimeout(() => end('it took too long'), wait);
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      said += text;
      if (said.length > limits.shutInAnswerMaximum) end('its answer is too long');
    });
    // A script that ends early leaves the pipe; its end is told below.
    child.stdin.on('error', () => undefined);
    child.on('error', (error) => end(error.message));
    child.on('close', () => {
      clearTimeout(timer);
      resolve(over === undefined ? answerOf(said) : { failed: over });
    });
    child.stdin.end(JSON.stringify([script, entries]));
  });

const answerOf = (said: string): ShutIn => {
  try {
    const answer: unknown = JSON.parse(said);
    if (typeof answer === 'object' && answer !== null) {
      const { verdict, failed } = answer as { verdict?: unknown; failed?: unknown };
      if (typeof verdict === 'string') return { verdict: verdict.slice(0, limits.nameMaximum) };
      if (typeof failed === 'string') return { failed: failed.slice(0, limits.textMaximum) };
    }
  } catch {
    // Told below.
  }
  return { failed: 'the rules ended without an answer' };
};

/** Runs in the process of its own. Only text goes into the context, and only text is taken from it. */
const inside = `'use strict';
const vm = require('node:vm');
const write = process.stdout.write.bind(process.stdout);
const input = process.stdin;
const refuse = () => { throw new Error('no network'); };
const reaching = ['node:net', 'node:dgram', 'node:dns', 'node:tls', 'node:http', 'node:https', 'node:http2'].map((name) => require(name));
reaching[0].Socket.prototype.connect = refuse;
reaching[0].Server.prototype.listen = refuse;
for (const module of reaching) for (const key of Object.keys(module)) try { module[key] = refuse; } catch {}
const parts = [];
input.setEncoding('utf8').on('data', (text) => parts.push(text)).on('end', () => {
  const [script, entries] = JSON.parse(parts.join(''));
  for (const name of Object.getOwnPropertyNames(globalThis))
    if (/^(fetch|WebSocket|EventSource|XMLHttpRequest|require|module|exports)$/.test(name)) delete globalThis[name];
  for (const name of ['binding', '_linkedBinding', 'dlopen', 'getBuiltinModule', 'mainModule', 'kill', 'abort'])
    try { process[name] = undefined; } catch {}
  let answer;
  try {
    const context = vm.createContext(Object.create(null), { codeGeneration: { strings: false, wasm: false } });
    const given = vm.runInContext(script + '\\n;rules.judge(' + JSON.stringify(entries) + ')', context);
    answer = typeof given === 'string' ? given : JSON.stringify({ failed: 'its answer is no text' });
  } catch (error) {
    let told = 'the rules failed';
    try { if (typeof error.message === 'string') told = error.message; } catch {}
    answer = JSON.stringify({ failed: told });
  }
  write(answer, () => process.reallyExit(0));
});
`;
