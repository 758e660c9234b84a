/**
 * A report as a model: what stands where, in words and numbers, without a typesetter. It can be compared as
 * text; the typesetter (pdf.ts) adds nothing to what is said here.
 */
import type { Instant } from '../measure/quantity.ts';

export interface PageModel {
  readonly title: string;
  /** Language of our own words, for readers that speak. */
  readonly language: 'en';
  readonly description: string;
  /** Whose paper it is, for the file's own data: workshop and station. */
  readonly author?: string;
  readonly keywords?: readonly string[];
  /** Smaller type, for a paper that should stay one page. Absent: a report. */
  readonly setting?: 'dense' | 'card';
  /** Stands at the head of every page. */
  readonly head: { readonly left: string; readonly marks: readonly string[] };
  /** Stands at the foot of every page, beside the page number. */
  readonly foot: string;
  /** The report is dated by its record, not by the clock. */
  readonly datedAt: Instant;
  /** Before the title, where there is anything that a reader must know first of all. */
  readonly above: readonly Block[];
  readonly sections: readonly Section[];
}

export interface Section {
  readonly heading: string;
  /** Begins on a page of its own. */
  readonly newPage?: boolean;
  /** Not broken over pages; for one that is surely shorter than a page. */
  readonly whole?: true;
  readonly blocks: readonly Block[];
}

export type Block =
  | { readonly kind: 'paragraph'; readonly text: string; readonly weight?: 'strong' | 'small' }
  | { readonly kind: 'subheading'; readonly text: string }
  /** Framed: the mark of the source, the verdict, a difference. */
  | { readonly kind: 'frame'; readonly headline: string; readonly lines: readonly string[]; readonly heavy: boolean }
  /** One large figure with its reason. */
  | { readonly kind: 'figure'; readonly label: string; readonly value: string; readonly reason: string }
  /** Several figures beside each other, to be read from a few steps away. */
  | { readonly kind: 'limits'; readonly items: readonly { readonly label: string; readonly value: string }[] }
  /** A square code with words beside it. */
  | {
      readonly kind: 'code';
      readonly svg: string;
      readonly alternative: string;
      readonly headline: string;
      readonly lines: readonly string[];
    }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | {
      readonly kind: 'pairs';
      readonly rows: readonly (readonly [label: string, value: string])[];
      /** Not broken over pages; for rows that are surely few and short. */
      readonly whole?: true;
    }
  | TableBlock
  | {
      readonly kind: 'picture';
      readonly svg: string;
      /** What a person who cannot see it should know. */
      readonly alternative: string;
      readonly caption: string;
      /** Per cent of the width; absent: all of it. */
      readonly share?: number;
    }
  | { readonly kind: 'mono'; readonly label: string; readonly text: string }
  /** Which section stands on which page. */
  | { readonly kind: 'contents' }
  | {
      readonly kind: 'signatures';
      /** `name`: known already; else there is room for it. */
      readonly lines: readonly { readonly role: string; readonly meaning: string; readonly name?: string }[];
    };

export interface TableBlock {
  readonly kind: 'table';
  readonly caption: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly string[])[];
  /** Said instead where there is no row. */
  readonly empty: string;
}

export interface Column {
  readonly heading: string;
  /** Share of the width. */
  readonly share: number;
  readonly align?: 'right';
  /** Hashes and formulas. */
  readonly mono?: boolean;
}

export const paragraph = (text: string, weight?: 'strong' | 'small'): Block =>
  weight === undefined ? { kind: 'paragraph', text } : { kind: 'paragraph', text, weight };

/** The whole model as text, one block a line or more, in reading order. Pictures give their alternative text. */
export const modelText = (model: PageModel): string =>
  [
    [model.head.left, ...model.head.marks].join(' | '),
    ...model.above.map(blockText),
    model.title,
    ...model.sections.map(sectionText),
    model.foot,
  ].join('\n');

export const sectionText = ({ heading, blocks }: Section): string =>
  [`# ${heading}`, ...blocks.map(blockText)].join('\n');

export const blockText = (block: Block): string => {
  switch (block.kind) {
    case 'paragraph':
    case 'subheading':
      return block.text;
    case 'frame':
      return [block.headline, ...block.lines].join('\n');
    case 'figure':
      return `${block.label}: ${block.value}. ${block.reason}`;
    case 'limits':
      return block.items.map(({ label, value }) => `${label}: ${value}`).join('\n');
    case 'code':
      return [block.headline, ...block.lines, block.alternative].join('\n');
    case 'list':
      return block.items.map((item) => `- ${item}`).join('\n');
    case 'pairs':
      return block.rows.map(([label, value]) => `${label}: ${value}`).join('\n');
    case 'table':
      return block.rows.length === 0
        ? block.empty
        : [block.caption, block.columns.map(({ heading }) => heading), ...block.rows]
            .map((row) => (typeof row === 'string' ? row : row.join(' | ')))
            .join('\n');
    case 'picture':
      return `${block.alternative}\n${block.caption}`;
    case 'mono':
      return `${block.label} ${block.text}`;
    case 'contents':
      return 'Sections with their pages';
    case 'signatures':
      return block.lines
        .map(({ role, meaning, name }) => `${role}${name === undefined ? '' : ` ${name}`}: ${meaning}`)
        .join('\n');
  }
};
