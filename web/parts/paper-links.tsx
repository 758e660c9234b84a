/** The two single papers of a joint: the working for the coordinator to sign, the card for the part. */
export function PaperLinks({ path }: { readonly path: string }) {
  return (
    <>
      <a class="button" href={`${path}/working.pdf`} target="_blank" rel="noreferrer">
        Working (PDF)
      </a>
      <a class="button" href={`${path}/card.pdf`} target="_blank" rel="noreferrer">
        Set-up card (PDF)
      </a>
    </>
  );
}
