/** The forms of what a person does at a joint, loaded when the page stands. */
export const loadForms = () =>
  Promise.all([
    import('./sheets.tsx'),
    import('./pass-sheets.tsx'),
    import('./document-sheet.tsx'),
    import('./answer-sheet.tsx'),
    import('./hand-sheet.tsx'),
    import('./twin-sheet.tsx'),
    import('./ambient-sheet.tsx'),
    import('./probe-sheet.tsx'),
    import('./after-sheet.tsx'),
    import('./disposition-sheet.tsx'),
    import('./change-over-sheet.tsx'),
    import('./break-sheet.tsx'),
    import('./checks-sheet.tsx'),
  ]);
