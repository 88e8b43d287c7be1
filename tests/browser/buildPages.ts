import { buildDeskPage, buildPage } from './harness.ts'

/** Builds what the browser tests open before the first of them, so that no two build it at once. */
export default async function buildPages(): Promise<void> {
  await buildPage()
  await buildDeskPage()
}
