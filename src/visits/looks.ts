/** The command under which looks are kept, whichever one somebody typed. */
export const LOOKS = 'recheck due'
