export interface ScreenProps {
  /** What stands behind the screen's name in the address: an errand, a paper ... */
  readonly rest: readonly string[];
}
