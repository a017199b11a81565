/** Trouble that whoever typed the command can mend: its words are all they need. */
type Expected = abstract new (...args: never[]) => Error

/**
 * Runs a program of the command line. What is expected, and arguments that cannot be read, end it with one sentence;
 * everything else with where it happened; both with status 1.
 */
export function runProgram(
  main: (args: readonly string[]) => Promise<void>,
  expected: readonly Expected[],
): void {
  main(process.argv.slice(2)).catch((error: unknown) => {
    process.stderr.write(`${wordsOf(error, expected)}\n`)
    process.exitCode = 1
  })
}

function wordsOf(error: unknown, expected: readonly Expected[]): string {
  if (!(error instanceof Error)) return String(error)
  const isAboutArguments = error instanceof TypeError && 'code' in error
  const isExpected = isAboutArguments || expected.some((kind) => error instanceof kind)
  return isExpected ? error.message : (error.stack ?? error.message)
}
