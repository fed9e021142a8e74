"use client";

import { useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { stretchTimes } from "@/lib/client/questions/questionWords";
import { answer } from "@/lib/document/commands/questions";
import type { ShownQuestion } from "@/lib/document/records/questions";
import { useDesk } from "./DeskContext";
import { selectedSpan } from "./selection";
import { WordsForm } from "./WordsForm";

/** An answer; what is selected meanwhile, other than a question, can go with it as where to listen. */
export function ReplyForm({ question }: { question: ShownQuestion }) {
  const { opened, selection, select, grid } = useDesk();
  const [isWith, setWith] = useState(true);
  const stretch = selection?.kind === "question" ? null : selectedSpan(opened.song, selection, grid);
  return (
    <WordsForm
      label="Your answer"
      draft={`reply.${question.id}`}
      cardId={question.id}
      act="Answer"
      beside={
        stretch ? (
          <button
            type="button"
            className={controls.button}
            aria-pressed={isWith}
            onClick={() => setWith(!isWith)}
          >
            {isWith ? "✓ " : ""}with {stretchTimes(stretch)}
          </button>
        ) : null
      }
      send={(words) => {
        const where = stretch && isWith ? { startSec: stretch.startSec, endSec: stretch.endSec } : null;
        if (!opened.acts.run((ctx) => answer(ctx, question.id, { words, stretch: where }))) return null;
        select({ kind: "question", id: question.id });
        return question.id;
      }}
    />
  );
}
