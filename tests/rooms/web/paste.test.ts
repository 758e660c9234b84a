/** What is pasted of a certificate: read as it stands, turned into percent, and told where it can be read in two ways. */
import { describe, expect, test } from 'vitest';
import { readCertificate } from '../../../web/pages/new-joint/paste-analysis.ts';

/** Each sample as a line: "C 0.17; P at most 0.009". */
const read = (text: string): string[] =>
  readCertificate(text).samples.map(
    ({ label, rows }) =>
      `${label === '' ? '' : `${label}: `}${rows
        .map(({ element, content }) =>
          [element, content.how === 'reported' ? '' : content.how, content.text]
            .filter((each) => each !== '')
            .join(' '),
        )
        .join('; ')}`,
  );
const aside = (text: string): string[] => readCertificate(text).aside.map((each) => `${each.text}: ${each.why}`);

test('a line of pairs is read as it stands; what is no element is listed', () => {
  const line = 'Heat 4711: C 0.17 Si 0,35 Mn:1.45 Nb <0.005 B n.r. V - CE 0.43 Alloy 7 Al\u22640.02';
  expect(read(line)).toEqual([
    'C 0.17; Si 0,35; Mn 1.45; Nb at most 0.005; B not reported; V not reported; Al at most 0.02',
  ]);
  expect(aside(line)).toEqual([
    'Heat 4711: not understood',
    'CE 0.43: a carbon equivalent is worked out here from the elements',
    'Alloy 7: not understood',
  ]);
  expect(readCertificate('no numbers here').samples).toEqual([]);
});

describe('scales', () => {
  // 1 ppm by mass is 0.0001 %: by definition.
  test.each([
    ['B 5 ppm', 'B 0.0005'],
    ['N [ppm] 60', 'N 0.006'],
    ['N ppm: 60', 'N 0.006'],
    ['B max 5 ppm', 'B at most 0.0005'],
    ['C 0,17 %', 'C 0,17'],
    ['C% 0.17', 'C 0.17'],
    ['C (x100): 17', 'C 0.17'],
    ['Px1000 12', 'P 0.012'],
    ['P \u00d71000 <9', 'P at most 0.009'],
    ['P 10^-3 %: 12', 'P 0.012'],
    ['S 1/1000 4', 'S 0.004'],
  ])('%s', (text, meant) => expect(read(text)).toEqual([meant]));

  test('of the head and of the value that do not agree are told', () => {
    expect(aside('N [ppm]: 0.006 %')).toEqual(['N 0.006 % ppm: the head of the column says ppm, the value %']);
  });
});

describe('bounds', () => {
  test.each([
    ['Nb <0.005', 'Nb at most 0.005'],
    ['Nb max 0.005', 'Nb at most 0.005'],
    ['S 0.005 max.', 'S at most 0.005'],
    ['P<0.01', 'P at most 0.01'],
  ])('%s', (text, meant) => expect(read(text)).toEqual([meant]));
});

describe('a comma before three digits', () => {
  test('can mean two things, which is said and not guessed', () => {
    expect(read('Mn 1,234 C 0.17')).toEqual(['C 0.17']);
    expect(aside('Mn 1,234 C 0.17')).toEqual(['Mn 1,234: can be 1.234 or 1234: type it at the element, with a point']);
    expect(aside('Mn 1.234 C 0,17')).toHaveLength(1);
  });
  test('means one where the other numbers of the paper say which', () => {
    expect(read('Mn 1,234 C 0,17')).toEqual(['Mn 1,234; C 0,17']);
    expect(read('Mn 1.234 C 0.17')).toEqual(['Mn 1.234; C 0.17']);
    expect(read('C 0,171 P 0,012')).toEqual(['C 0,171; P 0,012']);
  });
  test('two signs in one number are refused', () => {
    expect(aside('N 1.234,5 ppm')).toEqual([expect.stringContaining('more than one point or comma')]);
  });
});

describe('tables', () => {
  test('with tabs, a row of scales and two heats', () => {
    const table = [
      'Heat\tC\tSi\tMN\tP\tB\tCEV',
      '\t%\t%\t%\tx1000\tppm\t',
      '4711\t0.17\t0,35\t1,45\t12\t5\t0.43',
      '4712\t0.18\t\t1,46\t<9\tmax 5\t0.44',
    ].join('\n');
    expect(read(table)).toEqual([
      '4711: C 0.17; Si 0,35; Mn 1,45; P 0.012; B 0.0005',
      '4712: C 0.18; Mn 1,46; P at most 0.009; B at most 0.0005',
    ]);
    expect(aside(table)).toEqual([
      'CEV 0.43: a carbon equivalent is worked out here from the elements',
      'CEV 0.44: a carbon equivalent is worked out here from the elements',
    ]);
  });
  test('parted by spaces, with words before the first symbol', () => {
    expect(read('Heat no. C Si Mn P N [ppm]\n4711 0.17 0.35 1.45 0.012 60')).toEqual([
      '4711: C 0.17; Si 0.35; Mn 1.45; P 0.012; N 0.006',
    ]);
  });
  test('parted by commas, semicolons or lines', () => {
    expect(read('C,Si,Mn\n0.17,0.35,1.45')).toEqual(['C 0.17; Si 0.35; Mn 1.45']);
    expect(read('C;Si;Mn\n0,17;0,35;1,45')).toEqual(['C 0,17; Si 0,35; Mn 1,45']);
    expect(read('| C | Si | Mn |\n|---|---|---|\n| 0.17 | 0.35 | 1.45 |')).toEqual(['C 0.17; Si 0.35; Mn 1.45']);
    expect(read('C,Si,Mn\n0,17,0,35,1,45'), 'commas that are both').toEqual([]);
  });
  test('standing upright, one element a line, by symbol or by name', () => {
    expect(read('Carbon 0.17 %\nManganese, Mn: 1.45 %\nCb\t0.02\nAl tot 0.03')).toEqual([
      'C 0.17; Mn 1.45; Nb 0.02; Al 0.03',
    ]);
  });
  test('a row of limits is no analysis', () => {
    const table = 'C Si Mn\nmax 0.20 0.55 1.60\nLadle 0.17 0.35 1.45';
    expect(read(table)).toEqual(['Ladle: C 0.17; Si 0.35; Mn 1.45']);
    expect(aside(table)).toEqual(['max 0.20 0.55 1.60: a row of limits, not of an analysis']);
  });
  test('values that cannot be given to their symbols are not given to any', () => {
    expect(read('C Si Mn\n0.17 0.35')).toEqual([]);
    expect(read('C Si Mn\n0.17 0.35 1.45 0.43')).toEqual([]);
    expect(read('C P N\n0.17 0.010 max 50')).toEqual([]);
    expect(aside('C Si Mn\n0.17 0.35')).toEqual([expect.stringContaining('2 cells under 3 columns')]);
  });
});

test('an element that stands twice with different values is taken from neither place', () => {
  expect(read('C 0.17 Si 0.3\nC 0.19')).toEqual(['Si 0.3']);
  expect(aside('C 0.17 Si 0.3\nC 0.19')).toEqual(['C 0.19: C stands here twice, also as 0.17']);
  expect(read('C 0.17 0.20 max')).toEqual([]);
});

test('two whole lines are two analyses', () => {
  expect(read('C 0.17 Si 0.3\nC 0.19 Si 0.2')).toEqual(['C 0.17; Si 0.3', 'C 0.19; Si 0.2']);
});

test('what is not possible is told beside its row', () => {
  const [sample] = readCertificate('C 17 Mn 1.45').samples;
  expect(sample!.rows[0]!.slip).toContain('0.17 %');
  expect(sample!.rows[1]!.slip).toBeUndefined();
});

test('soluble aluminium and elements that no formula asks for are set aside with the reason', () => {
  expect(aside('Al sol 0.025 W 0.01 Co 0.02')).toEqual([
    'Al sol 0.025: soluble aluminium is not the whole of it',
    'W 0.01: no formula here asks for this element',
    'Co 0.02: no formula here asks for this element',
  ]);
});
