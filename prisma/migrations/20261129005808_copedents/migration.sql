-- CreateTable
CREATE TABLE "Copedent" (
    "id" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "chart" JSONB NOT NULL,
    "revision" INTEGER NOT NULL DEFAULT 1,
    "createdAt" TIMESTAMP(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "Copedent_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "CopedentShare" (
    "copedentId" TEXT NOT NULL,
    "bookId" TEXT NOT NULL,
    "sharedAt" TIMESTAMP(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "CopedentShare_pkey" PRIMARY KEY ("copedentId","bookId")
);

-- CreateTable
CREATE TABLE "UsualCopedent" (
    "userId" TEXT NOT NULL,
    "presetId" TEXT,
    "copedentId" TEXT,

    CONSTRAINT "UsualCopedent_pkey" PRIMARY KEY ("userId")
);

-- CreateIndex
CREATE INDEX "Copedent_ownerId_idx" ON "Copedent"("ownerId");

-- CreateIndex
CREATE INDEX "CopedentShare_bookId_idx" ON "CopedentShare"("bookId");

-- CreateIndex
CREATE INDEX "UsualCopedent_copedentId_idx" ON "UsualCopedent"("copedentId");

-- AddForeignKey
ALTER TABLE "Copedent" ADD CONSTRAINT "Copedent_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "User"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CopedentShare" ADD CONSTRAINT "CopedentShare_copedentId_fkey" FOREIGN KEY ("copedentId") REFERENCES "Copedent"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CopedentShare" ADD CONSTRAINT "CopedentShare_bookId_fkey" FOREIGN KEY ("bookId") REFERENCES "Book"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "UsualCopedent" ADD CONSTRAINT "UsualCopedent_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "UsualCopedent" ADD CONSTRAINT "UsualCopedent_copedentId_fkey" FOREIGN KEY ("copedentId") REFERENCES "Copedent"("id") ON DELETE CASCADE ON UPDATE CASCADE;
