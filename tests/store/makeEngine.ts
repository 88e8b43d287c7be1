import { engineFiles } from '../../geo/store/template/engineFiles.ts'

/** Makes the engine's files before the first test file needs them, so that no two make them at once. */
export default async function makeEngine(): Promise<void> {
  await engineFiles()
}
