using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace Valvewright.Store.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class PostgresTables : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Blobs",
                columns: table => new
                {
                    Digest = table.Column<string>(type: "text", nullable: false),
                    Bytes = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Blobs", x => x.Digest);
                });

            migrationBuilder.CreateTable(
                name: "Records",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    SiteId = table.Column<Guid>(type: "uuid", nullable: false),
                    Kind = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<long>(type: "bigint", nullable: false),
                    Value = table.Column<string>(type: "text", nullable: true),
                    Blob = table.Column<string>(type: "text", nullable: true),
                    At = table.Column<string>(type: "text", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Records", x => x.Id);
                    table.CheckConstraint("CK_Records_Version", "\"Version\" >= 1");
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
                    Number = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    SiteId = table.Column<Guid>(type: "uuid", nullable: false),
                    Kind = table.Column<string>(type: "text", nullable: false),
                    RecordId = table.Column<Guid>(type: "uuid", nullable: false),
                    Version = table.Column<long>(type: "bigint", nullable: false),
                    At = table.Column<string>(type: "text", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    Value = table.Column<string>(type: "text", nullable: true),
                    UndoOf = table.Column<long>(type: "bigint", nullable: true),
                    BroughtInBy = table.Column<string>(type: "text", nullable: true),
                    BroughtInAt = table.Column<string>(type: "text", nullable: true)
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

            // History only grows, no matter who writes to the database.
            migrationBuilder.Sql("""
                CREATE FUNCTION "History_only_grows"() RETURNS trigger LANGUAGE plpgsql AS
                $$ BEGIN RAISE EXCEPTION 'History is not changed or deleted.'; END $$;
                CREATE TRIGGER "History_is_not_changed" BEFORE UPDATE OR DELETE OR TRUNCATE ON "History"
                FOR EACH STATEMENT EXECUTE FUNCTION "History_only_grows"();
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "History");

            migrationBuilder.Sql("DROP FUNCTION \"History_only_grows\"()");

            migrationBuilder.DropTable(
                name: "Records");

            migrationBuilder.DropTable(
                name: "Blobs");
        }
    }
}
