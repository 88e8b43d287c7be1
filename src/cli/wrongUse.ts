/** The command was called in a way it can't be: exit 2. */
export class WrongUse extends Error {
  override readonly name = 'WrongUse'
}
