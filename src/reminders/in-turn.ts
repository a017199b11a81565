/** Lets works run one after another, in the order in which they come. One that fails holds up no other. */
export type InTurn = <Result>(work: () => Promise<Result>) => Promise<Result>

export function inTurn(): InTurn {
  let last: Promise<unknown> = Promise.resolve()
  return (work) => {
    const mine = last.then(work)
    last = mine.catch(() => {})
    return mine
  }
}
