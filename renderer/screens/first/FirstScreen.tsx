export function FirstScreen() {
  return <h1>Lotfile</h1>;
}
