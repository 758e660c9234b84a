/** Asks for a secret at the terminal without showing it. Undefined where there is no terminal, or the person gave up (Ctrl+C, Ctrl+D). */
export async function askSecret(
  question: string,
  input: NodeJS.ReadStream = process.stdin,
  output: NodeJS.WriteStream = process.stderr,
): Promise<string | undefined> {
  if (!input.isTTY) return undefined;
  output.write(question);
  input.setRawMode(true);
  input.setEncoding('utf8').resume();
  let typed = '';
  try {
    return await new Promise((resolve) => {
      input.on('data', (chunk: string) => {
        for (const sign of chunk) {
          if (sign === '\r' || sign === '\n') return resolve(typed);
          if (sign === '\u0003' || sign === '\u0004') return resolve(undefined);
          if (sign === '\u007f' || sign === '\b') typed = [...typed].slice(0, -1).join('');
          else if (sign >= ' ') typed += sign;
        }
      });
    });
  } finally {
    input.removeAllListeners('data').pause();
    input.setRawMode(false);
    output.write('\n');
  }
}
