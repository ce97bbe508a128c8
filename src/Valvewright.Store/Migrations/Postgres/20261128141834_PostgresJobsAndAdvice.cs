using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Valvewright.Store.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class PostgresJobsAndAdvice : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Advice",
                columns: table => new
                {
                    SiteId = table.Column<Guid>(type: "uuid", nullable: false),
                    Night = table.Column<string>(type: "text", nullable: false),
                    Mark = table.Column<long>(type: "bigint", nullable: false),
                    At = table.Column<string>(type: "text", nullable: false),
                    Value = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Advice", x => x.SiteId);
                    table.ForeignKey(
                        name: "FK_Advice_Records_SiteId",
                        column: x => x.SiteId,
                        principalTable: "Records",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Feeds",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Digest = table.Column<string>(type: "text", nullable: false),
                    OrganizationId = table.Column<Guid>(type: "uuid", nullable: true),
                    By = table.Column<string>(type: "text", nullable: false),
                    MadeAt = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Feeds", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Jobs",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    SiteId = table.Column<Guid>(type: "uuid", nullable: false),
                    Kind = table.Column<string>(type: "text", nullable: false),
                    Request = table.Column<string>(type: "text", nullable: false),
                    Asked = table.Column<string>(type: "text", nullable: false),
                    Begun = table.Column<int>(type: "integer", nullable: false),
                    State = table.Column<string>(type: "text", nullable: false),
                    Ended = table.Column<string>(type: "text", nullable: true),
                    Result = table.Column<string>(type: "text", nullable: true),
                    Problem = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Jobs", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Jobs_Records_SiteId",
                        column: x => x.SiteId,
                        principalTable: "Records",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Feeds_Digest",
                table: "Feeds",
                column: "Digest",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_Ended",
                table: "Jobs",
                column: "Ended");

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_SiteId",
                table: "Jobs",
                column: "SiteId");
            // The tables of Orleans, in which programs that share the work find each other.
            foreach (string script in new[] { "Main", "Clustering", "Reminders" })
            {
                using StreamReader reader = new(typeof(PostgresJobsAndAdvice).Assembly
                    .GetManifestResourceStream($"Valvewright.Store.PostgreSQL-{script}.sql")!);
                migrationBuilder.Sql(reader.ReadToEnd());
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Advice");

            migrationBuilder.DropTable(
                name: "Feeds");

            migrationBuilder.DropTable(
                name: "Jobs");
        }
    }
}
