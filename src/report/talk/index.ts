// A page to talk over with a climber
export { fewestInjuries } from "./dots.js";
export { type Talk, type TalkChoice, talkChoices, talkOver } from "./talk-over.js";
export { talkMark } from "./talk-page.js";
