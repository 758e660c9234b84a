/** Kinds of finding that are about people rather than temperatures. Their severity stands with the others (rules.ts). */
export type FindingOfPeople = 'entry outside role' | 'welder not qualified' | 'qualification lapsed';
