/**
 * A verdict must come out the same on every machine, whenever it is computed. So the pure rooms know no clock, no
 * chance, no disk and no network, and the judge, with the heat that it reckons by, computes with what every machine rounds alike.
 */
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { houseRules, roomOf } from './house-rules.ts';
import { importsOf, parsed, sources } from './sources.ts';

const pure = sources.filter((file) => houseRules.pure.includes(roomOf(file)));

/** Names that reach outside: time, chance, timers, the process, the network, the console. */
const outside = new Set(
  (
    'Date performance setTimeout setInterval setImmediate queueMicrotask requestAnimationFrame process globalThis ' +
    'fetch console crypto navigator window document localStorage require'
  ).split(' '),
);

/** Packages that compute and do nothing else. */
const purePackages = /^(zod|fflate|asn1js|@noble\/hashes\/.*)$/;

/** Functions that IEEE 754 does not require to round alike everywhere; + - * / and the square root it does. */
const steadyMath = new Set('PI SQRT2 abs ceil floor max min round sign sqrt trunc'.split(' '));

function reachesOutside(source: ts.SourceFile): string[] {
  const found: string[] = [];
  const declaredHere = new Set<string>();
  visit(source, (node) => {
    if ((ts.isVariableDeclaration(node) || ts.isParameter(node)) && ts.isIdentifier(node.name)) {
      declaredHere.add(node.name.text);
    }
  });
  visit(source, (node) => {
    if (ts.isIdentifier(node) && !declaredHere.has(node.text) && outside.has(node.text) && isFreeName(node))
      found.push(node.text);
    if (isMathOf(node) && node.name.text === 'random') found.push('Math.random');
  });
  return found;
}

function unsteadyArithmetic(source: ts.SourceFile): string[] {
  const found: string[] = [];
  visit(source, (node) => {
    if (isMathOf(node) && !steadyMath.has(node.name.text)) found.push(`Math.${node.name.text}`);
    if (ts.isBinaryExpression(node) && /^\*\*=?$/.test(node.operatorToken.getText())) found.push('**');
  });
  return found;
}

function visit(node: ts.Node, see: (node: ts.Node) => void): void {
  see(node);
  node.forEachChild((child) => visit(child, see));
}

const isMathOf = (node: ts.Node): node is ts.PropertyAccessExpression =>
  ts.isPropertyAccessExpression(node) && node.expression.getText() === 'Math';

/** A variable of that name, not a property, a key, a type's member or a parameter of one's own. */
function isFreeName(node: ts.Identifier): boolean {
  const { parent } = node;
  if (ts.isPropertyAccessExpression(parent) && parent.name === node) return false;
  return !('name' in parent && parent.name === node);
}

test('there are pure rooms to look at', () => expect(pure.length).toBeGreaterThan(60));

test('pure rooms import nothing of Node, and only packages that compute', () => {
  const foreign = pure.flatMap(importsOf).filter(({ isOwn, to }) => !isOwn && !purePackages.test(to));
  expect(foreign.map(({ from, to }) => `${from} -> ${to}`)).toEqual([]);
});

test('pure rooms know no clock, no chance, no timer and nothing outside', () => {
  expect(pure.flatMap((file) => reachesOutside(parsed(file)).map((name) => `${file}: ${name}`))).toEqual([]);
});

test.each(['judgement', 'conduction', 'suspicion'])('%s computes with + - x / and the square root only', (room) => {
  const reckoned = pure.filter((file) => roomOf(file) === room);
  expect(reckoned.length).toBeGreaterThan(5);
  expect(reckoned.flatMap((file) => unsteadyArithmetic(parsed(file)).map((name) => `${file}: ${name}`))).toEqual([]);
});

describe('the look itself sees', () => {
  const source = (text: string) => ts.createSourceFile('a.ts', text, ts.ScriptTarget.Latest, true);
  test.each([
    ['new Date()', 'Date'],
    ['const at = Date.now();', 'Date'],
    ['setTimeout(() => {}, 1);', 'setTimeout'],
    ['const a = process.env;', 'process'],
    ['const a = Math.random();', 'Math.random'],
  ])('%s', (text, name) => expect(reachesOutside(source(text))).toContain(name));
  test('but not a property or a key of the same name', () => {
    expect(reachesOutside(source('weld.process; const a = { process: 1 }; interface B { process: string }'))).toEqual(
      [],
    );
  });
  test.each(['a ** 2', 'Math.exp(a)', 'Math.pow(a, 2)'])('%s', (text) => {
    expect(unsteadyArithmetic(source(`const b = ${text};`))).toHaveLength(1);
  });
  test('but not the square root', () =>
    expect(unsteadyArithmetic(source('Math.sqrt(2) * Math.max(1, 2)'))).toEqual([]));
});
