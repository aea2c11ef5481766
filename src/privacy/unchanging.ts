/** A value that nobody changes once it is made. */
export type Unchanging<T> = T extends readonly (infer Item)[]
  ? readonly Unchanging<Item>[]
  : T extends object
    ? { readonly [Key in keyof T]: Unchanging<T[Key]> }
    : T;
