/** The page in a package: takes a package, says how it stands, judges it again shut in, and draws it. Nothing leaves the machine. */
import { findHead, signedHeadText } from '../../server/ledger/head-text.ts';
import { inspectPackage, type PackageInspection } from '../../server/proof/inspect-package.ts';
import {
  type Again,
  againWords,
  notJudgedBecause,
  recordWords,
  sharedJudge,
  standingWords,
  whatSoundMeans,
} from '../../server/proof/package-words.ts';
import { unzipped } from '../../server/proof/zip.ts';
import { type Certificate, certificatesIn } from '../../server/stamp/certificate.ts';
import { chartOf } from './chart.ts';
import { judgeShutIn } from './shut-in.ts';
import { withSignatures } from './signatures.ts';

/** Put in by the build: the rules of the program that this page came with. */
declare const rulesOfPage: string;

const at = <E extends HTMLElement>(id: string): E => document.getElementById(id) as E;
const [drop, choice, head, headFile, authority, answer, chart] = [
  at('drop'),
  at<HTMLInputElement>('package'),
  at<HTMLTextAreaElement>('head'),
  at<HTMLInputElement>('head-file'),
  at<HTMLInputElement>('authority'),
  at('answer'),
  at('chart'),
];

let chosen: File | undefined;
/** Number of the newest question: what an older one still finds is not shown. */
let asked = 0;

choice.addEventListener('change', () => take(choice.files?.[0]));
headFile.addEventListener('change', async () => {
  const file = headFile.files?.[0];
  if (file === undefined) return;
  const text = (await file.slice(0, 4000).text()).trim();
  const found = findHead(text);
  // Shown as it was read, so that it can be seen and put right.
  head.value = found === undefined ? text : signedHeadText(found);
  take(chosen);
});
for (const more of [head, authority]) more.addEventListener('change', () => take(chosen));
for (const kind of ['dragover', 'dragenter'])
  addEventListener(kind, (event) => {
    event.preventDefault();
    drop.classList.add('over');
  });
addEventListener('dragleave', () => drop.classList.remove('over'));
addEventListener('drop', (event) => {
  event.preventDefault();
  drop.classList.remove('over');
  take(event.dataTransfer?.files[0]);
});

function take(file: File | undefined): void {
  if (file === undefined) return;
  chosen = file;
  asked += 1;
  void look(file, asked);
}

async function look(file: File, question: number): Promise<void> {
  show(['Reading the package.'], 'bad', []);
  chart.replaceChildren();
  const unpacked = unzipped(new Uint8Array(await file.arrayBuffer()));
  if ('refused' in unpacked) return show([`NOT A PACKAGE. ${unpacked.refused}`], 'bad', []);
  const given = head.value.trim();
  const known = findHead(given);
  if (given !== '' && known === undefined)
    return show(['The head that you gave is none: it reads CHAIN=ENTRY:HASH, the hash with 64 characters.'], 'bad', []);
  const trusted = await trustedIn(authority.files?.[0]);
  if (trusted === 'none')
    return show(['The file of certificates that you gave holds none that can be read: give it as PEM.'], 'bad', []);
  const knownHeads = known === undefined ? [] : [known];
  const { seen, checked } = await withSignatures((mathematics) =>
    inspectPackage(unpacked.files, mathematics, { knownHeads, ...(trusted === undefined ? {} : { trusted }) }),
  );
  if (question !== asked) return;
  const standing = checked
    ? standingWords(seen)
    : ['SIGNATURES NOT CHECKED: this browser has no Ed25519. Use a newer one, or OpenSSL as HOW-TO-VERIFY.txt says.'];
  const tone = seen.intact && checked && seen.keys.length > 0 ? 'intact' : 'bad';
  const words = [
    ...recordWords(seen),
    ...(known === undefined ? [] : [`compared with the head that you gave: entry ${known.seq}`]),
  ];
  show(standing, tone, [...words, 'judging again ...']);
  const drawing = chartOf(seen.texts);
  if (drawing !== undefined) chart.replaceChildren(heading('Temperatures as the instruments gave them'), drawing);
  const own = await byOwnRules(seen);
  const today = notJudgedBecause(seen) === undefined ? await judgeShutIn(rulesOfPage, JSON.stringify(seen.texts)) : own;
  if (question !== asked) return;
  const { recordedVerdict } = seen;
  show(standing, tone, [
    ...words,
    againWords(
      `its own rules${seen.rules === undefined ? '' : ` (${seen.rules.program})`}, shut in`,
      recordedVerdict,
      own,
    ),
    againWords('the rules that came with this page', recordedVerdict, today),
  ]);
}

/** Certificates of authorities whose time stamps the reader believes. */
const trustedIn = async (file: File | undefined): Promise<readonly Certificate[] | 'none' | undefined> => {
  if (file === undefined) return undefined;
  try {
    return certificatesIn(new Uint8Array(await file.arrayBuffer()));
  } catch {
    return 'none';
  }
};

const byOwnRules = async (seen: PackageInspection): Promise<Again> => {
  const { rules, texts } = seen;
  const against = notJudgedBecause(seen);
  if (against !== undefined) return { failed: against };
  if (rules === undefined) return { failed: 'the record names no rules of its own' };
  if (rules.script === undefined) return { failed: `rules/${rules.sha256}.js is missing or altered` };
  return judgeShutIn(rules.script, JSON.stringify(texts));
};

function show(standing: readonly string[], tone: 'intact' | 'bad', words: readonly string[]): void {
  const frame = document.createElement('div');
  frame.className = `standing ${tone}`;
  frame.append(...standing.map((text) => made('p', text)));
  const list = document.createElement('ul');
  list.append(...words.map((text) => made('li', text)));
  answer.replaceChildren(
    frame,
    ...(words.length === 0
      ? []
      : [heading('What the record holds'), list, made('p', sharedJudge), made('p', whatSoundMeans)]),
  );
}

const heading = (text: string): HTMLElement => made('h2', text);
const made = (name: string, text: string): HTMLElement => {
  const element = document.createElement(name);
  element.textContent = text;
  return element;
};
