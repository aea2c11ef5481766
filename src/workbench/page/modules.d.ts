declare module "workbench:examples" {
  const examples: readonly { readonly name: string; readonly text: string }[];
  export default examples;
}
declare module "*.css";
