using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Valvewright.Store.Migrations
{
    /// <inheritdoc />
    public partial class FirstTables : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Blobs",
                columns: table => new
                {
                    Digest = table.Column<string>(type: "TEXT", nullable: false),
                    Bytes = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Blobs", x => x.Digest);
                });

            migrationBuilder.CreateTable(
                name: "Records",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    SiteId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    Version = table.Column<long>(type: "INTEGER", nullable: false),
                    Value = table.Column<string>(type: "TEXT", nullable: true),
                    Blob = table.Column<string>(type: "TEXT", nullable: true),
                    At = table.Column<string>(type: "TEXT", nullable: false),
                    By = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Records", x => x.Id);
                    table.CheckConstraint("CK_Records_Version", "Version >= 1");
                    table.ForeignKey(
                        name: "FK_Records_Blobs_Blob",
                        column: x => x.Blob,
                        principalTable: "Blobs",
                        principalColumn: "Digest",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Records_Records_SiteId",
                        column: x => x.SiteId,
                        principalTable: "Records",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "History",
                columns: table => new
                {
                    Number = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    SiteId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    RecordId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<long>(type: "INTEGER", nullable: false),
                    At = table.Column<string>(type: "TEXT", nullable: false),
                    By = table.Column<string>(type: "TEXT", nullable: false),
                    Value = table.Column<string>(type: "TEXT", nullable: true),
                    UndoOf = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_History", x => x.Number);
                    table.ForeignKey(
                        name: "FK_History_History_UndoOf",
                        column: x => x.UndoOf,
                        principalTable: "History",
                        principalColumn: "Number",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_History_Records_RecordId",
                        column: x => x.RecordId,
                        principalTable: "Records",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_History_Records_SiteId",
                        column: x => x.SiteId,
                        principalTable: "Records",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_History_RecordId_Version",
                table: "History",
                columns: new[] { "RecordId", "Version" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_History_SiteId",
                table: "History",
                column: "SiteId");

            migrationBuilder.CreateIndex(
                name: "IX_History_UndoOf",
                table: "History",
                column: "UndoOf");

            migrationBuilder.CreateIndex(
                name: "IX_Records_Blob",
                table: "Records",
                column: "Blob");

            migrationBuilder.CreateIndex(
                name: "IX_Records_Kind",
                table: "Records",
                column: "Kind");

            migrationBuilder.CreateIndex(
                name: "IX_Records_SiteId_Kind",
                table: "Records",
                columns: new[] { "SiteId", "Kind" });

            // History only grows, no matter who writes to the file.
            migrationBuilder.Sql("CREATE TRIGGER History_is_not_changed BEFORE UPDATE ON History BEGIN SELECT RAISE(ABORT, 'History is not changed.'); END");
            migrationBuilder.Sql("CREATE TRIGGER History_is_not_deleted BEFORE DELETE ON History BEGIN SELECT RAISE(ABORT, 'History is not deleted.'); END");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "History");

            migrationBuilder.DropTable(
                name: "Records");

            migrationBuilder.DropTable(
                name: "Blobs");
        }
    }
}
