/** Files that the build folds into the program as data URLs. */
declare module "*.ttf?inline" {
  const dataUrl: string;
  export default dataUrl;
}
