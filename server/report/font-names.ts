/** The families that a report is set in: the names that fonts.ts gives them, and the only ones that the typesetter finds. */
export const family = 'Ledger Sans';
export const monoFamily = 'Ledger Sans Mono';
/** For what neither has: letters of the other scripts, drawn on a coarse grid, and pictures that people type. */
export const wideFamily = 'LedgerLetters';
